/** A new reporter's token, told this once, and how it tells what happens: over HTTP, or over MQTT. */

import { useState } from "preact/hooks";
import { Copy } from "../need/weather/token-card";
import { serverTime } from "../night/now";
import { newId } from "../store/ids";
import { site } from "../store/queries";
import { t } from "../words/catalogue";
import { ENTRIES, exampleEntry, type MadeReporter, topicOf } from "./reporter-api";

export function ReporterCard({ made, onDone }: { made: MadeReporter; onDone: () => void }) {
  const station = [...(site.value?.stations.keys() ?? [])][0] ?? "";
  const [entry] = useState(() => exampleEntry(station, newId(), serverTime()));
  const body = JSON.stringify({ entries: [entry] });
  const message = JSON.stringify({ token: made.token, entries: [entry] });
  const command = `curl -X POST ${location.origin}${ENTRIES} -H 'Authorization: Bearer ${made.token}' -H 'Content-Type: application/json' -d '${body}'`;
  return (
    <section class="sent-how" aria-label={t("How {reporter} tells what happens", { reporter: made.name })}>
      <h2 class="more-title">{t("How {reporter} tells what happens", { reporter: made.name })}</h2>
      <p>{t("Its token. It is not shown again: whoever has it can write into this site’s journal.")}</p>
      <p class="sent-token">
        <bdi dir="ltr">{made.token}</bdi>
      </p>
      <Copy text={made.token} label={t("Copy the token")} />
      <p>{t("Over HTTP it sends to this address, with POST:")}</p>
      <pre dir="ltr">{`${location.origin}${ENTRIES}\nAuthorization: Bearer ${made.token}\n\n${body}`}</pre>
      <Copy text={command} label={t("Copy all of it as a command")} />
      <p>{t("Over MQTT it publishes to this topic, with quality of service 1:")}</p>
      <pre dir="ltr">{`${topicOf(made.id)}\n\n${message}`}</pre>
      <Copy text={message} label={t("Copy the message")} />
      <p class="more-note">
        {t(
          "Each entry has an id of its own: what was sent twice counts once, and what comes late finds its place. What cannot be read is kept aside with its reasons.",
        )}
      </p>
      <div class="code-ways">
        <button type="button" class="button button-strong" onClick={onDone}>
          {t("Done")}
        </button>
      </div>
    </section>
  );
}
