/** All stations of the site: searched, grouped, and chosen for changes to many at once. */

import { useEffect, useMemo } from "preact/hooks";
import { PickList } from "../controls/pick-list";
import { TextField } from "../controls/text-field";
import type { SiteDocument } from "../site/document";
import { t, tn } from "../words/catalogue";
import { choosing, chosen, grouping, place, query, toggleAll } from "./choosing";
import { found, type Grouping, type ListRow, linesOf, rowsOf, type StationLine } from "./list";
import { ChooseButton, ChosenBar, ListActions } from "./list-actions";
import { StationRow } from "./station-row";
import { VirtualRows } from "./virtual-rows";

interface StationListProps {
  document: SiteDocument;
  /** The station beside the list. */
  here: string | null;
  /** The list stands in a column of its own. */
  column: boolean;
}

export function StationList({ document, here, column }: StationListProps) {
  const lines = linesOf(document);
  const shown = useMemo(() => found(lines, query.value), [lines, query.value]);
  const rows = useMemo(
    () => listRows(shown, document),
    [shown, document, grouping.value, query.value, t("In no program")],
  );
  useKeptPlace(column);
  return (
    <div class="station-list">
      <div class="station-find">
        <TextField
          label={t("Find by number, name, part or hydrozone")}
          value={query.value}
          onChange={(typed) => {
            query.value = typed;
          }}
        />
        {query.value && !choosing.value ? null : (
          <div class="station-ways">
            <GroupBy />
            <ChooseButton />
          </div>
        )}
        {query.value || choosing.value ? null : <ListActions />}
      </div>
      <p class="unseen" role="status">
        {query.value ? tn("{count} station", "{count} stations", shown.length) : ""}
      </p>
      {shown.length === 0 ? <p class="list-none">{noneWords(lines.length)}</p> : null}
      <VirtualRows
        key={column ? "column" : "page"}
        count={rows.length}
        keyOf={(index) => rows[index]?.key ?? String(index)}
        label={t("Stations")}
        estimate={72}
        column={column}
        draw={(index) => <ListedRow row={rows[index]} here={here} />}
      />
      {choosing.value ? <ChosenBar shown={shown.map((line) => line.id)} /> : null}
    </div>
  );
}

function noneWords(all: number): string {
  return all === 0
    ? t("No station yet. Add a supply first, then the stations that hang on it.")
    : t("No station has all of these words.");
}

function listRows(shown: readonly StationLine[], document: SiteDocument): ListRow[] {
  if (query.value) return shown.map((line) => ({ is: "station", key: line.id, line }));
  const none = grouping.value === "program" ? t("In no program") : t("Elsewhere");
  return rowsOf(shown, grouping.value, document, none);
}

function GroupBy() {
  return (
    <PickList<Grouping>
      label={t("Grouped by")}
      value={grouping.value}
      options={[
        { value: "part", label: t("Part") },
        { value: "program", label: t("Program") },
        { value: "supply", label: t("Supply") },
      ]}
      onChange={(by) => {
        grouping.value = by;
      }}
    />
  );
}

function ListedRow({ row, here }: { row: ListRow | undefined; here: string | null }) {
  if (!row) return null;
  if (row.is === "group") return <GroupRow row={row} />;
  const program = grouping.value === "program" && !query.value ? (row.key.split("/")[0] ?? null) : null;
  return <StationRow line={row.line} here={row.line.id === here} program={program} />;
}

function GroupRow({ row }: { row: ListRow & { is: "group" } }) {
  const all = row.stations.every((station) => chosen.value.has(station));
  return (
    <div class="list-head station-group">
      <h2>
        <bdi>{row.title}</bdi>
      </h2>
      {choosing.value ? (
        <button type="button" class="button" onClick={() => toggleAll(row.stations)}>
          {all ? t("Let all of {group} go", { group: row.title }) : t("Choose all of {group}", { group: row.title })}
        </button>
      ) : (
        <p>{tn("{count} station", "{count} stations", row.stations.length)}</p>
      )}
    </div>
  );
}

/** Back from a station, the list stands where it stood. */
function useKeptPlace(column: boolean): void {
  useEffect(() => {
    if (column) return;
    window.scrollTo(0, place.top);
    const look = () => {
      place.top = window.scrollY;
    };
    addEventListener("scroll", look, { passive: true });
    return () => removeEventListener("scroll", look);
  }, [column]);
}
