/** A CSV file for the journal: what stands in its first line, how its columns are read, and an example of one. */

import type { SiteDocument } from "../site/document";

/** The fields that an entry may have, in the order in which the server gives them out. */
export const FIELDS = [
  "id",
  "at",
  "kind",
  "station",
  "supply",
  "controller",
  "alarm",
  "flow_lpm",
  "count_l",
  "finding",
  "count",
  "explained",
  "text",
] as const;
export type Field = (typeof FIELDS)[number];

/** More than the server takes is not sent at all. */
export const MOST_BYTES = 2 * 1024 * 1024;
const DELIMITERS = [",", ";", "\t"];
const HEAD_BYTES = 16 * 1024;

/** How a file is read. `holds`: what columns with other headings hold, by heading. `units`: of flows and of counters.
 * `always`: what is so in every line that does not say it. */
export interface Reading {
  holds: Readonly<Record<string, Field>>;
  units: Readonly<Partial<Record<Field, string>>>;
  always: Readonly<Partial<Record<Field, string>>>;
}

export const AS_IT_STANDS: Reading = { holds: {}, units: {}, always: {} };

/** The headings of a file; none where its beginning cannot be read here, which the server says in words. */
export async function headingsOf(file: Blob): Promise<string[]> {
  const bytes = new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer());
  const is16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const text = new TextDecoder(is16 ? (bytes[0] === 0xff ? "utf-16le" : "utf-16be") : "utf-8").decode(bytes);
  const [line = ""] = text.split(/\r\n|\r|\n/).filter((one) => one.trim() && !/^sep=.$/i.test(one));
  return line.includes("\0") ? [] : cellsOf(line).filter(Boolean);
}

function cellsOf(line: string): string[] {
  const mark = DELIMITERS.reduce((best, one) => (line.split(one).length > line.split(best).length ? one : best));
  return line.split(mark).map((cell) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim(),
  );
}

export function isField(heading: string): boolean {
  return (FIELDS as readonly string[]).includes(heading.toLowerCase());
}

/** The address that takes the file, read so. */
export function pathFor(site: string, { holds, units, always }: Reading): string {
  const query = new URLSearchParams();
  for (const [heading, field] of Object.entries(holds)) query.append("column", `${field}=${heading}`);
  for (const [field, unit] of Object.entries(units)) query.append("unit", `${field}=${unit}`);
  for (const [field, value] of Object.entries(always)) query.append("always", `${field}=${value}`);
  return `/api/sites/${encodeURIComponent(site)}/journal/table.csv${query.size ? `?${query}` : ""}`;
}

/** Lines such as this site's could be. `note`: in the reader's words. */
export function exampleFor(document: SiteDocument, note: string): string {
  const [station] = [...document.stations.values()];
  const [supply] = [...document.supplies.values()];
  const rows = [
    ["at", "kind", "station", "supply", "flow_lpm", "count_l", "text"],
    ["2026-07-10 22:15", "opened", station?.number ?? "12", "", "", "", ""],
    ["2026-07-10 22:20", "flow", "", supply?.name ?? "1", "61.5", "", ""],
    ["2026-07-11 06:00", "count", "", supply?.name ?? "1", "", "120400", ""],
    ["2026-07-11 07:30", "note", station?.number ?? "12", "", "", "", note],
  ];
  return rows.map((row) => row.map(cell).join(",")).join("\n");
}

function cell(text: string | number): string {
  const written = String(text);
  return /[",\n]/.test(written) ? `"${written.replaceAll('"', '""')}"` : written;
}
