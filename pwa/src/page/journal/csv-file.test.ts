import { expect, it } from "vitest";
import { SiteDocument } from "../site/document";
import { AS_IT_STANDS, exampleFor, headingsOf, isField, pathFor } from "./csv-file";

const file = (...parts: BlobPart[]) => new Blob(parts);

it.each([
  ["at,kind,text\n1,2,3\n", ["at", "kind", "text"]],
  ["\ufeffTime;Reading;\r\n2026-07-01;5,5;\r\n", ["Time", "Reading"]],
  ["sep=;\nTime;Reading\n", ["Time", "Reading"]],
  ['"Time","The meter, at the gate"'.replace(", at", " at"), ["Time", "The meter at the gate"]],
  ["\n\nTime\tReading\n", ["Time", "Reading"]],
  ["", []],
])("reads the headings of %j", async (text, headings) => {
  expect(await headingsOf(file(text))).toEqual(headings);
});

it("reads headings in UTF-16, and none of a spreadsheet's own file", async () => {
  const wide = new Uint8Array([0xff, 0xfe, ...[..."at,kind"].flatMap((sign) => [sign.charCodeAt(0), 0])]);
  expect(await headingsOf(file(wide))).toEqual(["at", "kind"]);
  expect(await headingsOf(file(new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 8])))).toEqual([]);
});

it("knows a heading of ours in whatever case", () => {
  expect([isField("Count_L"), isField("at"), isField("Time")]).toEqual([true, true, false]);
});

it("tells the server how the columns are read", () => {
  expect(pathFor("a park", AS_IT_STANDS)).toBe("/api/sites/a%20park/journal/table.csv");
  const path = pathFor("park", {
    holds: { "Time & day": "at" },
    units: { count_l: "m3" },
    always: { kind: "count", supply: "town" },
  });
  const query = new URL(path, "http://localhost").searchParams;
  expect(query.getAll("column")).toEqual(["at=Time & day"]);
  expect(query.getAll("unit")).toEqual(["count_l=m3"]);
  expect(query.getAll("always")).toEqual(["kind=count", "supply=town"]);
});

it("shows an example with the site's own names", () => {
  const document = new SiteDocument({
    format: 1,
    records: [
      { table: "supplies", id: "north", name: 'North, "old"' },
      { table: "stations", id: "s1", number: "7", name: "Roses" },
    ],
  });
  const lines = exampleFor(document, "Wet by the gate").split("\n");
  expect(lines[1]).toBe("2026-07-10 22:15,opened,7,,,,");
  expect(lines[3]).toBe('2026-07-11 06:00,count,,"North, ""old""",,120400,');
  expect(lines[4]).toBe("2026-07-11 07:30,note,7,,,,Wet by the gate");
});
