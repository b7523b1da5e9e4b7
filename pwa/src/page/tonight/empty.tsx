/** What stands here while there is no night to show: none yet, no site on this phone, or a site with nothing in it. */

import { busy, fault, loaded } from "../night/night";
import type { SiteDocument } from "../site/document";
import { line, site } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { NoStations } from "./no-stations";

export function Empty() {
  const known = site.value ?? loaded.value?.document;
  return (
    <div class="page-empty">
      <RoomHead title={known ? <bdi>{known.name}</bdi> : t("Tonight")} />
      <main class="empty">
        <Why known={known} />
      </main>
    </div>
  );
}

function Why({ known }: { known: SiteDocument | undefined }) {
  if (known?.stations.size === 0) return <NoStations />;
  if (busy.value) return <p>{t("Fetching tonight…")}</p>;
  if (known) return <NoNight />;
  return line.value.now === "starting" && !fault.value ? null : <NoSite />;
}

function NoSite() {
  return (
    <>
      <h2>{t("No site on this phone yet")}</h2>
      <p>
        {t(
          "Ask your site's manager for a code, and join with it. Then tonight's water stands here, without signal too.",
        )}
      </p>
      <button type="button" class="button button-first" onClick={() => go("join")}>
        {t("Join a site")}
      </button>
    </>
  );
}

function NoNight() {
  return (
    <>
      <h2>{t("This night is not known here yet")}</h2>
      <p>{t("It comes with the next contact to the server, or once the planner on this phone is ready.")}</p>
    </>
  );
}
