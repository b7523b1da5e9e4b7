/** A new joining code, told this once: as a picture for a camera, as signs to read out, and as an address to send. */

import { useState } from "preact/hooks";
import { whenHere } from "../shell/line-words";
import { t } from "../words/catalogue";
import type { Invited } from "./crew";

interface CodeCardProps {
  invited: Invited;
  /** What the code is for, in a sentence. */
  forWhom: string;
  onDone: () => void;
}

export function CodeCard({ invited, forWhom, onDone }: CodeCardProps) {
  return (
    <section class="code-card" aria-label={t("Code")}>
      {/* The picture is the server's own, made for this page; the policy lets no script in it run. */}
      <div class="code-qr" role="img" aria-label={t("QR code")} dangerouslySetInnerHTML={{ __html: invited.qr }} />
      <div class="code-facts">
        <p>{forWhom}</p>
        <p class="code-signs">
          <bdi dir="ltr">{invited.code}</bdi>
        </p>
        <p class="code-address">
          <bdi dir="ltr">{invited.address}</bdi>
        </p>
        <p>{t("Good once, until {time}.", { time: whenHere(invited.expires_at, Date.now()) })}</p>
        <p class="more-note">
          {t("Whoever has the code can come in: hand it to one person alone. It is not shown again.")}
        </p>
        <Ways invited={invited} onDone={onDone} />
      </div>
    </section>
  );
}

function Ways({ invited, onDone }: Pick<CodeCardProps, "invited" | "onDone">) {
  const [said, setSaid] = useState("");
  const copy = async () => {
    const done = await navigator.clipboard?.writeText(invited.address).then(
      () => true,
      () => false,
    );
    setSaid(done ? t("Copied.") : t("This browser does not let pages copy. Select the address and copy it."));
  };
  // Somebody who closes the device's own sheet has shared nothing, and that is no fault.
  const share = () => void navigator.share({ url: invited.address }).catch(() => undefined);
  return (
    <div class="code-ways">
      {"share" in navigator ? (
        <button type="button" class="button" onClick={share}>
          {t("Share the address")}
        </button>
      ) : null}
      <button type="button" class="button" onClick={() => void copy()}>
        {t("Copy the address")}
      </button>
      <button type="button" class="button button-strong" onClick={onDone}>
        {t("Done")}
      </button>
      <p role="status">{said}</p>
    </div>
  );
}
