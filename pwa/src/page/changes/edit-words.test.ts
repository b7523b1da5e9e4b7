import { describe, expect, it } from "vitest";
import { Records } from "../records/records";
import { units } from "../words/reader";
import { editWords, setWords, type Told } from "./edit-words";
import { valueWords } from "./values";

const records = new Records([
  { table: "site", id: "here", name: "Quinta das Marés" },
  { table: "supplies", id: "well", name: "Old well", limit_lpm: 72 },
  { table: "stations", id: "n14", number: "N14", name: "Palm walk, north", supply: "well" },
  { table: "programs", id: "palms", name: "Palms" },
  { table: "turns", id: "t14", station: "n14", program: "palms", run_s: 2880 },
  { table: "closures", id: "mow", name: "Mowing" },
]);

function told(given: Partial<Told>): Told {
  return { kind: "set", table: "turns", record: "t14", field: "run", was: null, now: null, ...given };
}

const run = (run_s: number, cycles: number | null = null, soak_s: number | null = null) => ({ run_s, cycles, soak_s });

describe("an edit in words", () => {
  it("names the field, the record, what was and what is", () => {
    const edit = told({ was: run(2880), now: run(3600, 3, 1200) });
    expect(editWords(edit, records)).toBe("Run time of N14 Palm walk, north: 48 min → 1 h in 3 cycles, 20 min soak");
  });

  it("leaves out what stays as it was", () => {
    const edit = told({ was: run(2880, 3, 1200), now: run(3600, 3, 1200) });
    expect(editWords(edit, records)).toBe("Run time of N14 Palm walk, north: 48 min → 1 h");
  });

  it("tells of records that come and go", () => {
    const now = { number: "N15", name: "Fig court" };
    const added = told({ kind: "add", table: "stations", record: "n15", field: null, now });
    expect(editWords(added, records)).toBe("N15 Fig court: added");
    expect(editWords(told({ kind: "remove", table: "closures", record: "mow", field: null }), records)).toBe(
      "Mowing: removed",
    );
    expect(editWords(told({ kind: "restore", table: "closures", record: "mow", field: null }), records)).toBe(
      "Mowing: brought back",
    );
    expect(
      editWords(told({ kind: "settle", table: "closures", record: "mow", field: "removed", now: true }), records),
    ).toBe("Mowing: removed");
  });

  it("tells what was settled on", () => {
    expect(editWords(told({ kind: "settle", now: run(2160) }), records)).toBe(
      "Run time of N14 Palm walk, north: settled on 36 min",
    );
  });

  it("counts the others of a set", () => {
    const edits = [told({ was: run(60), now: run(120) }), told({}), told({})];
    expect(setWords(edits, records)).toBe("Run time of N14 Palm walk, north: 1 min → 2 min, and 2 more edits");
  });
});

describe("a value in words", () => {
  it("is in the reader's units", () => {
    units.value = "us";
    expect(valueWords("supplies", "limit_lpm", 100, records)).toMatch(/^26.4 g/);
    units.value = "metric";
    expect(valueWords("supplies", "limit_lpm", 100, records)).toBe("100 L/min");
    expect(valueWords("site", "seasonal_pct", 90, records)).toBe("90 %");
  });

  it("is a name where it points to a record, and the default where nothing is written", () => {
    expect(valueWords("stations", "supply", "well", records)).toBe("Old well");
    expect(valueWords("programs", "seasonal_pct", null, records)).toBe("100 %");
    expect(valueWords("supplies", "limit_lpm", null, records)).toBe("not set");
  });

  it("is one thing where fields belong together", () => {
    expect(valueWords("windows", "hours", { opens: "21:00", closes: "06:00" }, records)).toMatch(
      /^0?9:00 PM–0?6:00 AM$|^21:00–06:00$/,
    );
    const days = { days: "odd", weekdays: null, every_n_days: null, every_from: null, dates: null };
    expect(valueWords("programs", "days", days, records)).toBe("odd dates");
    expect(valueWords("turns", "removed", true, records)).toBe("removed");
  });
});
