/** A new weather station's token, told this once, and how it sends its readings. */

import { useState } from "preact/hooks";
import { todayHere } from "../../records/today";
import { t } from "../../words/catalogue";
import { dayAfter } from "../../words/moments";
import { exampleOf, type MadeStation, READINGS } from "./station-api";

export function TokenCard({ made, onDone }: { made: MadeStation; onDone: () => void }) {
  return (
    <section class="sent-how" aria-label={t("How {station} sends its readings", { station: made.name })}>
      <h2 class="more-title">{t("How {station} sends its readings", { station: made.name })}</h2>
      <p>{t("Its token. It is not shown again: whoever has it can send weather for this site.")}</p>
      <p class="sent-token">
        <bdi dir="ltr">{made.token}</bdi>
      </p>
      <Copy text={made.token} label={t("Copy the token")} />
      <p>{t("It sends to this address, with POST:")}</p>
      <pre dir="ltr">{location.origin + READINGS}</pre>
      <p>{t("With this head:")}</p>
      <pre dir="ltr">{`Authorization: Bearer ${made.token}\nContent-Type: application/json`}</pre>
      <p>{t("And its readings like this; units that differ from the field’s own are named:")}</p>
      <pre dir="ltr">{exampleOf(dayAfter(todayHere.value, -1))}</pre>
      <p class="more-note">
        {t(
          "What was sent twice counts once; what comes late changes its own day. Rows that cannot be read are told back.",
        )}
      </p>
      <div class="code-ways">
        <Copy text={example(made)} label={t("Copy all of it as a command")} />
        <button type="button" class="button button-strong" onClick={onDone}>
          {t("Done")}
        </button>
      </div>
    </section>
  );
}

export function Copy({ text, label }: { text: string; label: string }) {
  const [said, setSaid] = useState("");
  const copy = async () => {
    const done = await navigator.clipboard?.writeText(text).then(
      () => true,
      () => false,
    );
    setSaid(done ? t("Copied.") : t("This browser does not let pages copy. Select the text and copy it."));
  };
  return (
    <>
      <button type="button" class="button" onClick={() => void copy()}>
        {label}
      </button>
      <span role="status">{said}</span>
    </>
  );
}

function example({ token }: MadeStation): string {
  const body = exampleOf(dayAfter(todayHere.peek(), -1)).replace(/\n\s*/g, " ");
  return `curl -X POST ${location.origin}${READINGS} -H 'Authorization: Bearer ${token}' -H 'Content-Type: application/json' -d '${body}'`;
}
