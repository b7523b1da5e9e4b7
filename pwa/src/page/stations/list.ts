/** The stations as a list: found by what people type, in groups, flattened for a list that draws only what is seen. */

import { fold } from "../night/finding";
import type { SiteDocument, SiteRecord } from "../site/document";

export type Grouping = "part" | "program" | "supply";

export interface TurnLine {
  id: string;
  program: string;
  letter: string;
  run_s: number;
  cycles: number;
  soak_s: number;
}

export interface StationLine {
  id: string;
  number: string;
  name: string;
  part: string;
  hydrozone: string;
  supply: string;
  turns: TurnLine[];
  /** What is searched, folded, each word after a blank. */
  whole: string;
}

export type ListRow =
  | { is: "group"; key: string; title: string; stations: string[] }
  | { is: "station"; key: string; line: StationLine };

const text = (record: SiteRecord | undefined, field: string): string =>
  typeof record?.[field] === "string" ? (record[field] as string) : "";
const number = (record: SiteRecord | undefined, field: string, otherwise: number): number =>
  typeof record?.[field] === "number" ? (record[field] as number) : otherwise;

const made = new WeakMap<SiteDocument, StationLine[]>();

/** In the order of their numbers, as people count: 2 before 10. */
export function linesOf(document: SiteDocument): StationLine[] {
  const known = made.get(document);
  if (known) return known;
  const turns = turnsByStation(document);
  const order = new Intl.Collator("en", { numeric: true });
  const lines = [...document.stations.values()].map((station) => {
    const record = document.record("stations", station.id);
    const hydrozone = station.hydrozone ? document.nameOf("hydrozone", station.hydrozone) : "";
    return {
      ...station,
      hydrozone,
      supply: text(record, "supply"),
      turns: turns.get(station.id) ?? [],
      whole: ` ${fold(`${station.number} ${station.name} ${station.part} ${hydrozone}`)}`,
    };
  });
  lines.sort((a, b) => order.compare(a.number, b.number));
  made.set(document, lines);
  return lines;
}

function turnsByStation(document: SiteDocument): Map<string, TurnLine[]> {
  const found = new Map<string, TurnLine[]>();
  for (const record of document.all("turns")) {
    const station = text(record, "station");
    found.set(station, [...(found.get(station) ?? []), turnOf(record, document)]);
  }
  return found;
}

export function turnOf(record: SiteRecord, document: SiteDocument): TurnLine {
  const program = text(record, "program");
  return {
    id: record.id,
    program,
    letter: document.programs.get(program)?.letter ?? "",
    run_s: number(record, "run_s", 0),
    cycles: number(record, "cycles", 1),
    soak_s: number(record, "soak_s", 0),
  };
}

/** Every word typed has to stand in a word of the station; the number itself comes first. */
export function found(lines: readonly StationLine[], typed: string): StationLine[] {
  const words = fold(typed).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [...lines];
  const fits = lines.filter(({ whole }) => words.every((word) => whole.includes(word)));
  const rank = (line: StationLine) => rankOf(line, words);
  return fits
    .map((line) => ({ line, rank: rank(line) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ line }) => line);
}

function rankOf({ number: own, whole }: StationLine, words: readonly string[]): number {
  const typed = words.join(" ");
  if (fold(own) === typed) return 0;
  if (fold(own).startsWith(typed)) return 1;
  return words.every((word) => whole.includes(` ${word}`)) ? 2 : 3;
}

interface Group {
  key: string;
  title: string;
  lines: StationLine[];
}

/** Groups in the document's order; what belongs to none comes last, under `none`. */
export function rowsOf(lines: readonly StationLine[], by: Grouping, document: SiteDocument, none: string): ListRow[] {
  return groupsOf(lines, by, document, none).flatMap(({ key, title, lines: own }): ListRow[] => [
    { is: "group", key: `group/${key}`, title, stations: own.map((line) => line.id) },
    ...own.map((line): ListRow => ({ is: "station", key: `${key}/${line.id}`, line })),
  ]);
}

function groupsOf(lines: readonly StationLine[], by: Grouping, document: SiteDocument, none: string): Group[] {
  const groups = new Map(
    keysInOrder(by, document).map(({ key, title }): [string, Group] => [key, { key, title, lines: [] }]),
  );
  const rest: Group = { key: "", title: none, lines: [] };
  for (const line of lines) {
    const keys = keysOf(line, by);
    if (keys.length === 0) rest.lines.push(line);
    for (const key of keys) (groups.get(key) ?? rest).lines.push(line);
  }
  return [...groups.values(), rest].filter((group) => group.lines.length > 0);
}

function keysInOrder(by: Grouping, document: SiteDocument): { key: string; title: string }[] {
  if (by === "program") return [...document.programs.values()].map(({ id, name }) => ({ key: id, title: name }));
  if (by === "supply") return [...document.supplies.values()].map(({ id, name }) => ({ key: id, title: name }));
  const parts = new Set([...document.stations.values()].map((station) => station.part).filter(Boolean));
  return [...parts].map((part) => ({ key: part, title: part }));
}

/** A station stands in every program it has a turn in. */
function keysOf(line: StationLine, by: Grouping): string[] {
  if (by === "program") return [...new Set(line.turns.map((turn) => turn.program))];
  return [by === "part" ? line.part : line.supply].filter(Boolean);
}
