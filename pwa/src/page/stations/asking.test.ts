import { describe, expect, it } from "vitest";
import { lisbon, NOON } from "../night/builders";
import { SiteDocument } from "../site/document";
import { type Asking, askedChange, cautionsFor, isReclaimed, nextMinute } from "./asking";

const site = new SiteDocument({
  format: 1,
  records: [
    { table: "site", id: "q", name: "Quinta das Marés" },
    { table: "supplies", id: "lagoon", name: "Lagoon", water: "reclaimed" },
    { table: "supplies", id: "main", name: "Main", fed_by: "lagoon" },
    { table: "supplies", id: "town", name: "Town" },
    { table: "stations", id: "a", number: "1", name: "A", supply: "main", flow_lpm: 20 },
    { table: "stations", id: "b", number: "2", name: "B", supply: "town", flow_lpm: 20 },
    { table: "programs", id: "p", name: "P" },
    { table: "turns", id: "t", program: "p", station: "a", run_s: 60 },
  ],
});
const asking = (given: Partial<Asking>): Asking => ({
  station: null,
  program: null,
  run_s: 600,
  when: "fits",
  at: null,
  ...given,
});
const change = (given: Partial<Asking>) =>
  askedChange(asking(given), "2026-10-24", "Inês Falcão", "id", lisbon(), NOON + 9 * 3600 + 5);

describe("asking for a run", () => {
  it("names the station with its minutes, or the program alone", () => {
    expect(change({ station: "a" })).toMatchObject({
      table: "asked",
      now: { night: "2026-10-24", station: "a", run_s: 600, by: "Inês Falcão" },
    });
    expect(change({ program: "p" })).toMatchObject({ now: { program: "p" } });
    expect(change({ program: "p" })).not.toHaveProperty("now.run_s");
  });

  it("says when: as soon as it fits, now, or at a time of the site's wall", () => {
    expect(change({ station: "a" })).not.toHaveProperty("now.at");
    expect(change({ station: "a", when: "now" })).toMatchObject({
      now: { at: nextMinute(lisbon(), NOON + 9 * 3600 + 5) },
    });
    expect(change({ station: "a", when: "at", at: "23:10" })).toMatchObject({ now: { at: "23:10" } });
    // Noon of that night is 12:00 on the site's wall, nine hours on it is 21:00.
    expect(nextMinute(lisbon(), NOON + 9 * 3600 + 5)).toBe("21:01");
  });

  it("warns of reclaimed water wherever it comes from", () => {
    expect([
      isReclaimed(site, asking({ station: "a" })),
      isReclaimed(site, asking({ station: "b" })),
      isReclaimed(site, asking({ program: "p" })),
    ]).toEqual([true, false, true]);
    expect(cautionsFor(site, asking({ station: "a" })).length).toBe(
      cautionsFor(site, asking({ station: "b" })).length + 1,
    );
  });
});
