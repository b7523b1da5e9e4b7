import { describe, expect, it } from "vitest";
import { lisbon, NOON } from "../night/builders";
import type { SiteRecord } from "../site/document";
import { person } from "../store/queries";
import { hours } from "../words/reader";
import { type PastEdit, withFilters } from "./book";
import { difference, isEmpty } from "./difference";
import { finishLine, sidesOf, waterLines } from "./effect-words";
import { latestOf, newsAfter } from "./seen";

function past(id: string, given: Partial<PastEdit> = {}): PastEdit {
  return {
    id,
    set: id,
    kind: "set",
    table: "turns",
    record: "t",
    field: "run",
    was: null,
    before: null,
    now: null,
    outcome: "taken",
    revision: 1,
    person: "bikram",
    device: null,
    at: 100,
    phone_time: null,
    decided_by: null,
    decided_at: null,
    settles: null,
    undoes: null,
    effect: null,
    ...given,
  };
}

it("is filtered on the phone where there is no line", () => {
  const page = { edits: [past("a"), past("b", { person: "ines" }), past("c", { record: "u" })], people: {}, next: 7 };
  const ids = (filters: Parameters<typeof withFilters>[1]) => withFilters(page, filters).edits.map((edit) => edit.id);
  expect(ids({ person: "bikram" })).toEqual(["a", "c"]);
  expect(ids({ table: "turns", record: "u" })).toEqual(["c"]);
  expect(withFilters(page, {}).next).toBeNull();
});

it("is news where somebody else's edit came into force after the mark", () => {
  person.value = { id: "ines", name: "Inês", device: "d", sites: [] };
  const edits = [
    past("new", { revision: 61 }),
    past("old", { revision: 60 }),
    past("own", { person: "ines", revision: 61 }),
    past("held", { outcome: "held", revision: 61 }),
  ];
  expect(newsAfter(edits, 60).map((edit) => edit.id)).toEqual(["new"]);
  expect(latestOf([past("a", { revision: 4, at: 9 }), past("b", { revision: 5, at: 9 })])?.revision).toBe(5);
  expect(latestOf([])).toBeNull();
});

describe("two documents", () => {
  const turn = (id: string, values: Record<string, unknown>): SiteRecord => ({ table: "turns", id, ...values });
  it("differ by records and by fields that belong together", () => {
    const then = [turn("a", { run_s: 60 }), turn("b", { run_s: 60, cycles: 1 }), turn("gone", { run_s: 1 })];
    const now = [turn("a", { run_s: 60, cycles: 1 }), turn("b", { run_s: 90, cycles: 2 }), turn("new", { run_s: 1 })];
    const found = difference(then, now);
    expect([found.added.map((one) => one.id), found.removed.map((one) => one.id)]).toEqual([["new"], ["gone"]]);
    expect(found.changed).toEqual([
      {
        table: "turns",
        record: "b",
        field: "run",
        stood: { run_s: 60, cycles: null, soak_s: null },
        now: { run_s: 90, cycles: 2, soak_s: null },
      },
    ]);
  });
  it("are the same where only defaults are spelt out", () => {
    expect(isEmpty(difference([turn("a", { run_s: 60 })], [turn("a", { run_s: 60, cycles: 1, soak_s: 0 })]))).toBe(
      true,
    );
  });
});

describe("an effect in figures", () => {
  const at = NOON + 12 * 3600;
  const before = { finish: at, volume_l: 1000, short_l: 0 };
  it("tells the finish, what is short, and the water", () => {
    hours.value = "24";
    const after = { finish: at + 22 * 60, volume_l: 2000, short_l: 4500 };
    expect(finishLine(before, after, lisbon())).toBe("Finish 00:22, 22 min later.");
    expect(waterLines(before, after).map((line) => line.text)).toEqual(["4.5 m³ short.", "1 m³ more water."]);
    expect(finishLine(null, before, lisbon())).toBe("Finish 00:00.");
    expect(finishLine(before, { ...before, finish: null }, lisbon())).toBe("Nothing runs.");
  });
  it("is read as the server weighed it, each side by itself", () => {
    expect(sidesOf({ night: "2026-10-24", mine: before, theirs: null })).toEqual({
      night: "2026-10-24",
      mine: before,
      theirs: null,
    });
    expect(sidesOf(null)).toBeNull();
    expect(sidesOf({ night: null, mine: null, theirs: null })).toBeNull();
  });
});
