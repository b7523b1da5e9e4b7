/** How a file is read where its headings or units are not ours, and what is so in all of its lines. */

import { PickList } from "../controls/pick-list";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { symbol, unitsOf } from "../words/units";
import { FIELDS, type Field, isField, type Reading } from "./csv-file";
import type { Kind } from "./shapes";
import { kindWords } from "./words";

const NOT_READ = "";
/** What files mostly hold; others say it themselves, line by line. */
const FILE_KINDS: readonly Kind[] = ["opened", "closed", "note"];
const MEASURED = [
  ["flow_lpm", "flow", "lpm"],
  ["count_l", "volume", "l"],
] as const;

interface ReadingFieldsProps {
  headings: readonly string[];
  document: SiteDocument;
  reading: Reading;
  onChange: (reading: Reading) => void;
}

export function ReadingFields({ headings, document, reading, onChange }: ReadingFieldsProps) {
  const { holds, units, always } = reading;
  const held = new Set([...headings.filter(isField).map((one) => one.toLowerCase()), ...Object.values(holds)]);
  const others = headings.filter((one) => !isField(one));
  return (
    <>
      {others.map((heading) => (
        <PickList<Field | "">
          key={heading}
          label={t("What “{heading}” holds", { heading })}
          value={holds[heading] ?? NOT_READ}
          options={[
            { value: NOT_READ, label: t("It is not read") },
            ...FIELDS.filter((one) => one === holds[heading] || !held.has(one)).map((one) => ({
              value: one,
              label: fieldWords(one),
            })),
          ]}
          onChange={(field) => onChange({ ...reading, holds: changed(holds, heading, field) })}
        />
      ))}
      {MEASURED.filter(([field]) => held.has(field)).map(([field, quantity, base]) => (
        <PickList
          key={field}
          label={field === "flow_lpm" ? t("The unit of its flows") : t("The unit of its counters")}
          value={units[field] ?? base}
          options={Object.entries(unitsOf(quantity)).map(([value, unit]) => ({ value, label: symbol(unit) }))}
          onChange={(unit) => onChange({ ...reading, units: changed(units, field, unit === base ? "" : unit) })}
        />
      ))}
      {headings.length && !held.has("kind") ? (
        <PickList
          label={t("What each line tells of")}
          value={always.kind ?? ""}
          options={[
            { value: "", label: t("Choose one") },
            { value: "flow", label: t("A meter’s flow") },
            { value: "count", label: t("A meter’s counter") },
            ...FILE_KINDS.map((kind) => ({ value: kind as string, label: kindWords({ kind }) })),
          ]}
          onChange={(kind) => onChange({ ...reading, always: changed(always, "kind", kind) })}
        />
      ) : null}
      {headings.length && !held.has("supply") && !held.has("station") ? (
        <PickList
          label={t("The supply that each line is about")}
          value={always.supply ?? ""}
          options={[
            { value: "", label: t("None") },
            ...[...document.supplies.values()].map((one) => ({ value: one.id, label: one.name })),
          ]}
          onChange={(supply) => onChange({ ...reading, always: changed(always, "supply", supply) })}
        />
      ) : null}
    </>
  );
}

/** The same with one value set, or taken out where it is empty. */
function changed<Value extends string>(
  values: Readonly<Partial<Record<string, Value>>>,
  name: string,
  value: Value | "",
): Record<string, Value> {
  const kept = Object.entries(values).filter(([one]) => one !== name) as [string, Value][];
  return Object.fromEntries(value ? [...kept, [name, value]] : kept);
}

function fieldWords(field: Field): string {
  const words: Record<Field, () => string> = {
    id: () => t("The entry’s id"),
    at: () => t("When it happened"),
    kind: () => t("What happened"),
    station: () => t("The station"),
    supply: () => t("The supply"),
    controller: () => t("The controller"),
    alarm: () => t("The alarm’s id"),
    flow_lpm: () => t("A meter’s flow"),
    count_l: () => t("A meter’s counter"),
    finding: () => t("What was found broken"),
    count: () => t("How many are broken"),
    explained: () => t("What the alarm was"),
    text: () => t("A text"),
  };
  return words[field]();
}
