/** The record that something is about, as it hangs in the grounds: its tag and name. */

import { recordTitle } from "../records/record-words";
import { textOf } from "../records/records";
import type { Waiting } from "../store/shapes";
import { StationTag } from "../tonight/station-tag";
import { subjectOf } from "./edit-words";
import { records } from "./ground";
import { told } from "./told";

export function Subject({ one }: { one: Waiting }) {
  const known = records.value;
  const record = known.get(one.edit.table, one.edit.record);
  const station = one.edit.table === "stations" ? record : known.get("stations", textOf(record, "station"));
  const program = known.get("programs", textOf(record, "program"));
  return (
    <div class="subject">
      {station ? <StationTag number={textOf(station, "number")} brass large /> : null}
      <h2>
        <bdi>{station ? textOf(station, "name") : subjectOf(told(one), known)}</bdi>
        {one.edit.table === "turns" && program ? (
          <span class="subject-under">
            <bdi>{recordTitle(program, known)}</bdi>
          </span>
        ) : null}
      </h2>
    </div>
  );
}
