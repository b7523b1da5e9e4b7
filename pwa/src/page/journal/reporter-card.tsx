/** A new reporter's token, told this once, and how it tells what happens: over HTTP, or over MQTT. */

import { useState } from "preact/hooks";
import { serverTime } from "../night/now";
import { CopyButton } from "../senders/copy-button";
import type { MadeSender } from "../senders/sender-api";
import { TokenCard } from "../senders/token-card";
import { newId } from "../store/ids";
import { site } from "../store/queries";
import { t } from "../words/catalogue";
import { ENTRIES, exampleEntry, topicOf } from "./reporter-api";

export function ReporterCard({ made, onDone }: { made: MadeSender; onDone: () => void }) {
  const station = [...(site.value?.stations.keys() ?? [])][0] ?? "";
  const [entry] = useState(() => exampleEntry(station, newId(), serverTime()));
  const body = JSON.stringify({ entries: [entry] });
  const message = JSON.stringify({ token: made.token, entries: [entry] });
  const command = `curl -X POST ${location.origin}${ENTRIES} -H 'Authorization: Bearer ${made.token}' -H 'Content-Type: application/json' -d '${body}'`;
  return (
    <TokenCard
      title={t("How {reporter} tells what happens", { reporter: made.name })}
      caution={t("Its token. It is not shown again: whoever has it can write into this site’s journal.")}
      token={made.token}
      onDone={onDone}
    >
      <p>{t("Over HTTP it sends to this address, with POST:")}</p>
      <pre dir="ltr">{`${location.origin}${ENTRIES}\nAuthorization: Bearer ${made.token}\n\n${body}`}</pre>
      <CopyButton text={command} label={t("Copy all of it as a command")} />
      <p>{t("Over MQTT it publishes to this topic, with quality of service 1:")}</p>
      <pre dir="ltr">{`${topicOf(made.id)}\n\n${message}`}</pre>
      <CopyButton text={message} label={t("Copy the message")} />
      <p class="more-note">
        {t(
          "Each entry has an id of its own: what was sent twice counts once, and what comes late finds its place. What cannot be read is kept aside with its reasons.",
        )}
      </p>
    </TokenCard>
  );
}
