/** A new weather station's token, told this once, and how it sends its readings. */

import { todayHere } from "../../records/today";
import { CopyButton } from "../../senders/copy-button";
import type { MadeSender } from "../../senders/sender-api";
import { TokenCard } from "../../senders/token-card";
import { t } from "../../words/catalogue";
import { dayAfter } from "../../words/moments";
import { exampleOf, READINGS } from "./station-api";

export function StationCard({ made, onDone }: { made: MadeSender; onDone: () => void }) {
  return (
    <TokenCard
      title={t("How {station} sends its readings", { station: made.name })}
      caution={t("Its token. It is not shown again: whoever has it can send weather for this site.")}
      token={made.token}
      onDone={onDone}
    >
      <p>{t("It sends to this address, with POST:")}</p>
      <pre dir="ltr">{location.origin + READINGS}</pre>
      <p>{t("With this head:")}</p>
      <pre dir="ltr">{`Authorization: Bearer ${made.token}\nContent-Type: application/json`}</pre>
      <p>{t("And its readings like this; units that differ from the field’s own are named:")}</p>
      <pre dir="ltr">{exampleOf(dayAfter(todayHere.value, -1))}</pre>
      <CopyButton text={example(made)} label={t("Copy all of it as a command")} />
      <p class="more-note">
        {t(
          "What was sent twice counts once; what comes late changes its own day. Rows that cannot be read are told back.",
        )}
      </p>
    </TokenCard>
  );
}

function example({ token }: MadeSender): string {
  const body = exampleOf(dayAfter(todayHere.peek(), -1)).replace(/\n\s*/g, " ");
  return `curl -X POST ${location.origin}${READINGS} -H 'Authorization: Bearer ${token}' -H 'Content-Type: application/json' -d '${body}'`;
}
