import { describe, expect, it } from "vitest";
import type { DocumentData } from "../site/document";
import { changesOf, groupValue } from "./changes";
import { EMPTY, laidOver, without, withRecord, withValues } from "./draft";

const DATA: DocumentData = {
  format: 1,
  records: [
    { table: "site", id: "quinta", name: "Quinta das Marés", zone: "Europe/Lisbon" },
    { table: "programs", id: "p", name: "Palm walk", rank: 3, days: "weekdays", weekdays: "mon,thu" },
    { table: "turns", id: "t", program: "p", station: "s", run_s: 2880, cycles: 2, soak_s: 600 },
  ],
};

describe("changes from a draft", () => {
  it("are none where nothing differs from the site", () => {
    expect(changesOf(DATA, withValues(EMPTY, "programs", "p", { rank: 3, start: null, notes: "" }))).toEqual([]);
  });

  it("name the group and its whole value where fields belong together", () => {
    const draft = withValues(EMPTY, "turns", "t", { run_s: 3600 });
    expect(changesOf(DATA, draft)).toEqual([
      {
        kind: "set",
        table: "turns",
        record: "t",
        field: "run",
        now: { run_s: 3600, cycles: 2, soak_s: 600 },
      },
    ]);
  });

  it("say the default as null", () => {
    const draft = withValues(EMPTY, "programs", "p", { rank: 5 });
    expect(changesOf(DATA, draft)).toEqual([{ kind: "set", table: "programs", record: "p", field: "rank", now: null }]);
  });

  it("leave what others changed meanwhile as it is", () => {
    const draft = withValues(EMPTY, "programs", "p", { start: "22:00" });
    const later = {
      ...DATA,
      records: DATA.records.map((one) => (one.id === "p" ? { ...one, name: "Palms" } : one)),
    };
    expect(changesOf(later, draft).map((change) => "field" in change && change.field)).toEqual(["start"]);
    expect(laidOver(later, draft).get("programs", "p")?.name).toBe("Palms");
  });

  it("add first and remove last, whatever was done first", () => {
    const removed = without(EMPTY, "turns", "t");
    const draft = withValues(
      withRecord(removed, { table: "programs", id: "n", name: "New", rank: 5, letter: "" }),
      "programs",
      "p",
      { name: "Old" },
    );
    expect(changesOf(DATA, draft).map(({ kind }) => kind)).toEqual(["add", "set", "remove"]);
    expect(changesOf(DATA, draft)[0]).toEqual({ kind: "add", table: "programs", record: "n", now: { name: "New" } });
  });

  it("forget what was added and removed again", () => {
    const draft = without(withRecord(EMPTY, { table: "programs", id: "n", name: "New" }), "programs", "n");
    expect(changesOf(DATA, draft)).toEqual([]);
  });

  it("give a day rule as one value", () => {
    expect(groupValue(DATA.records[1] ?? {}, "programs", "days")).toMatchObject({
      days: "weekdays",
      weekdays: "mon,thu",
      every_n_days: null,
    });
  });
});
