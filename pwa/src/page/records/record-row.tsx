/** One record in a list: its plate or colour where it has one, its name, and the line that matters. */

import type { SiteRecord } from "../site/document";
import { site } from "../store/queries";
import { ProgramChip } from "../tonight/program-chip";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { recordLine, recordTitle } from "./record-words";
import { type Records, textOf } from "./records";
import { StateBadge } from "./state-badge";

interface RecordRowProps {
  record: SiteRecord;
  records: Records;
  open?: boolean;
}

export function RecordRow({ record, records, open = false }: RecordRowProps) {
  const station = record.table === "stations";
  return (
    <button
      type="button"
      class={open ? "row record-row row-chosen" : "row record-row"}
      aria-current={open ? "true" : undefined}
      onClick={() => go("site", record.table, record.id)}
    >
      <Lead record={record} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{station ? textOf(record, "name") : recordTitle(record, records)}</bdi>
        </span>
        <span class="row-under">{recordLine(record, records)}</span>
      </span>
      <StateBadge table={record.table} id={record.id} />
    </button>
  );
}

function Lead({ record }: { record: SiteRecord }) {
  if (record.table === "stations") return <StationTag number={textOf(record, "number")} />;
  if (record.table !== "programs") return null;
  return <ProgramChip program={site.value?.programs.get(record.id)} />;
}
