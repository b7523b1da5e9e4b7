import { describe, expect, it } from "vitest";
import { SiteDocument } from "../site/document";
import { found, linesOf, rowsOf } from "./list";

const site = new SiteDocument({
  format: 1,
  records: [
    { table: "site", id: "q", name: "Quinta das Marés" },
    { table: "supplies", id: "north", name: "Main North" },
    { table: "supplies", id: "lagoon", name: "Lagoon" },
    { table: "hydrozones", id: "palms", name: "Palmeiras, arenoso" },
    { table: "stations", id: "a", number: "N10", name: "Pérgola", part: "Terrace", supply: "north", flow_lpm: 40 },
    {
      table: "stations",
      id: "b",
      number: "N2",
      name: "Palm walk",
      part: "North",
      supply: "north",
      hydrozone: "palms",
      flow_lpm: 80,
    },
    { table: "stations", id: "c", number: "L1", name: "Dunes", part: "", supply: "lagoon", flow_lpm: 20 },
    { table: "programs", id: "w", name: "Walks", letter: "W" },
    { table: "programs", id: "t", name: "Top-up", letter: "T" },
    { table: "turns", id: "1", program: "t", station: "b", run_s: 600 },
    { table: "turns", id: "2", program: "w", station: "b", run_s: 2880, cycles: 2, soak_s: 1200 },
    { table: "turns", id: "3", program: "w", station: "a", run_s: 900 },
  ],
});
const lines = linesOf(site);
const numbers = (typed: string) => found(lines, typed).map((line) => line.number);

describe("the stations", () => {
  it("stand in the order in which people count", () => {
    expect(lines.map((line) => line.number)).toEqual(["L1", "N2", "N10"]);
  });

  it("are found by number, name, part and hydrozone, whatever the accents", () => {
    expect([numbers("n1"), numbers("PERGOLA"), numbers("north palm"), numbers("palmeiras"), numbers("zebra")]).toEqual([
      ["N10"],
      ["N10"],
      ["N2"],
      ["N2"],
      [],
    ]);
  });

  it("stand in groups, and once in each program they have a turn in", () => {
    const told = (by: "part" | "program" | "supply") =>
      rowsOf(lines, by, site, "Elsewhere").map((row) => (row.is === "group" ? `${row.title}:` : row.line.number));
    expect(told("part")).toEqual(["Terrace:", "N10", "North:", "N2", "Elsewhere:", "L1"]);
    expect(told("program")).toEqual(["Walks:", "N2", "N10", "Top-up:", "N2", "Elsewhere:", "L1"]);
    expect(told("supply")).toEqual(["Main North:", "N2", "N10", "Lagoon:", "L1"]);
  });

  it("know their turns", () => {
    expect(lines[1]?.turns.map(({ letter, run_s, cycles, soak_s }) => [letter, run_s, cycles, soak_s])).toEqual([
      ["T", 600, 1, 0],
      ["W", 2880, 2, 1200],
    ]);
  });
});
