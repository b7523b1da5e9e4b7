/** Which way a walk goes, how long that is, and what is missing where it cannot be said. */

import { expect, it } from "vitest";
import { SiteDocument } from "../site/document";
import { plan } from "./choosing";

const METRES_A_DEGREE = 111_320;
const ALL = { by: "all", which: "" } as const;
const NONE: ReadonlySet<string> = new Set();

/** Stations of one part in a row to the north, so many metres on; null: nobody knows where. */
function aSite(...metres: (number | null)[]): SiteDocument {
  const stations = metres.map((north, n) => ({
    table: "stations",
    id: `s${n}`,
    number: String(n),
    name: `Bed ${n}`,
    part: "Orchard",
    ...(north === null ? {} : { latitude_deg: 10 + north / METRES_A_DEGREE, longitude_deg: 20 }),
  }));
  return new SiteDocument({ format: 1, records: [{ table: "site", id: "grove", name: "Grove" }, ...stations] });
}

it("is along the places, as long as the way from one to the next", () => {
  const planned = plan(aSite(0, 300, 100, 200), ALL, NONE, null);
  expect(planned).toMatchObject({ stations: ["s0", "s2", "s3", "s1"], unplaced: 0 });
  expect(planned.length_m).toBeCloseTo(300, 2);
});

it("from where somebody stands counts the way to the first", () => {
  const here = { latitude_deg: 10 + 250 / METRES_A_DEGREE, longitude_deg: 20 };
  const planned = plan(aSite(0, 100, 200), ALL, NONE, here);
  expect(planned.stations).toEqual(["s2", "s1", "s0"]);
  expect(planned.length_m).toBeCloseTo(250, 2);
});

it("is by number where one lies nobody knows where, and its length is not known", () => {
  expect(plan(aSite(0, 300, null, 100), ALL, NONE, null)).toEqual({
    stations: ["s0", "s1", "s2", "s3"],
    unplaced: 1,
    length_m: null,
  });
  expect(plan(aSite(), ALL, NONE, null)).toEqual({ stations: [], unplaced: 0, length_m: null });
});

it("goes through what was chosen alone", () => {
  const planned = plan(aSite(0, 300, null, 100), { by: "chosen", which: "" }, new Set(["s1", "s3"]), null);
  expect(planned).toMatchObject({ stations: ["s1", "s3"], unplaced: 0 });
  expect(planned.length_m).toBeCloseTo(200, 2);
});
