/** What concerns the whole app, below the head of each room. Never more than one of a kind, and no alarm. */

import type { ComponentChildren } from "preact";
import { line, person, unsentCounts } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { FillBowl } from "./fill-bowl";
import { noSignalWords, signedOutWords } from "./line-words";
import { newVersion, partMissing, reload, useNewVersion } from "./registering";

export function Banners() {
  return (
    <>
      <LineBanner />
      <VersionBanner />
      {partMissing.value ? (
        <Banner act={t("Try again")} onAct={reload}>
          {t("This part of the app is not on this phone yet, and the server does not answer.")}
        </Banner>
      ) : null}
    </>
  );
}

function LineBanner() {
  const now = line.value.now;
  if (now === "no_signal") return <Banner ofLine>{noSignalWords(line.value.silent_since, unsentCounts.value)}</Banner>;
  if (now !== "signed_out") return null;
  return (
    <Banner ofLine act={t("Sign in")} onAct={() => go("join")}>
      {signedOutWords(person.value?.name ?? "", unsentCounts.value)}
    </Banner>
  );
}

function VersionBanner() {
  const needed = line.value.now === "update_needed";
  if (!needed && !newVersion.value) return null;
  return (
    <Banner act={t("Use it now")} onAct={useNewVersion}>
      {needed
        ? t(
            "This version is too old to speak with the server. What is unsent waits on this phone until the new one is in use.",
          )
        : t("A new version is ready.")}
    </Banner>
  );
}

interface BannerProps {
  /** It says of the line what the chip says, too. */
  ofLine?: boolean;
  children: ComponentChildren;
  act?: string;
  onAct?: () => unknown;
}

function Banner({ children, act, onAct, ofLine = false }: BannerProps) {
  return (
    <div class={ofLine ? "banner banner-line" : "banner"}>
      <FillBowl fill="empty" />
      <p>{children}</p>
      {act ? (
        <button type="button" class="banner-act" onClick={() => void onAct?.()}>
          {act}
        </button>
      ) : null}
    </div>
  );
}
