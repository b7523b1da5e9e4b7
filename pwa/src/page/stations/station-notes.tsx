/** A station's notes: everybody on the team may write them. */

import { TextField } from "../controls/text-field";
import { draftOf, putDraft } from "../edits/drafts";
import { KeepBar } from "../edits/keep-bar";
import type { SiteDocument } from "../site/document";
import { mayNote } from "../store/queries";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";

const LONGEST = 4000;

export function StationNotes({ document, station }: { document: SiteDocument; station: string }) {
  const record = document.record("stations", station);
  const was = typeof record?.notes === "string" ? record.notes : "";
  if (!mayNote.value) return was ? <Written notes={was} /> : null;
  const name = `notes/${station}`;
  const notes = draftOf<string>(name) ?? was;
  const change: Change = {
    kind: "set",
    table: "stations",
    record: station,
    field: "notes",
    now: notes.trim() ? notes : null,
  };
  const number = document.stations.get(station)?.number ?? "";
  return (
    <section class="station-notes" aria-label={t("Notes")}>
      <TextField
        label={t("Notes for the crew")}
        value={notes}
        lines={4}
        most={LONGEST}
        onChange={(typed) => putDraft(name, typed === was ? null : typed)}
      />
      {notes === was ? null : (
        <KeepBar
          changes={[change]}
          said={() => t("Kept the notes of {station}.", { station: number })}
          back={t("Put back")}
          onBack={() => putDraft(name, null)}
          keep={t("Keep the notes")}
          onKept={() => putDraft(name, null)}
        />
      )}
    </section>
  );
}

function Written({ notes }: { notes: string }) {
  return (
    <section class="station-notes" aria-label={t("Notes")}>
      <h2>{t("Notes for the crew")}</h2>
      <p dir="auto">{notes}</p>
    </section>
  );
}
