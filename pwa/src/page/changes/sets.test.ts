import { describe, expect, it } from "vitest";
import type { Waiting } from "../store/shapes";
import { keepTheirs, settles, settleWith, takeProposed, weighed } from "./deciding";
import { acts, waitingSets } from "./sets";

function waits(id: string, given: Partial<Waiting> = {}, edit: Partial<Waiting["edit"]> = {}): Waiting {
  return {
    tray: "disputed",
    open: true,
    edit: { id, set: "s", table: "turns", record: id, field: "run", kind: "set", now: { run_s: 60 }, ...edit },
    answer: { id, set: "s", outcome: "disputed" },
    closed_how: null,
    closed_by: null,
    closed_at: null,
    effect: null,
    ...given,
  };
}

describe("acts", () => {
  it("gather the edits of a set, and the sets of one act", () => {
    const edits = [
      { id: 1, set: "a", together: "act" },
      { id: 2, set: "b" },
      { id: 3, set: "c", together: "act" },
    ];
    expect(acts(edits).map((act) => [act.id, act.items.map((edit) => edit.id)])).toEqual([
      ["act", [1, 3]],
      ["b", [2]],
    ]);
  });
});

describe("what waits", () => {
  it("is decided by set and tray, disputes first, and closed ones not at all", () => {
    const found = waitingSets([
      waits("h", { tray: "held" }, { set: "h" }),
      waits("a"),
      waits("b", { answer: { id: "b", set: "s", outcome: "disputed", with: ["a"] } }),
      waits("c", { open: false }),
    ]);
    expect(found.map((set) => [set.tray, set.id, set.items.length, set.atFault.length])).toEqual([
      ["disputed", "a", 2, 1],
      ["held", "h", 1, 1],
    ]);
  });
});

describe("settling", () => {
  const one = waits("t1");
  const other = waits("t2", {}, { now: { run_s: 120 } });

  it("takes what was proposed, keeps what is in force, or sets another value: every edit of the set is settled", () => {
    expect(takeProposed([one, other], () => false)).toEqual([
      { kind: "settle", table: "turns", record: "t1", field: "run", now: { run_s: 60 }, settles: "t1" },
      { kind: "settle", table: "turns", record: "t2", field: "run", now: { run_s: 120 }, settles: "t2" },
    ]);
    expect(keepTheirs([one], () => ({ run_s: 7 }))).toMatchObject([{ now: { run_s: 7 }, settles: "t1" }]);
    expect(settleWith([one, other], one, { run_s: 9 })).toMatchObject([{ now: { run_s: 9 } }, { now: { run_s: 120 } }]);
  });

  it("brings a removed record back first, once", () => {
    const twice = [one, waits("t3", {}, { record: "t1", field: "rank", now: 2 })];
    expect(takeProposed(twice, () => true).map((change) => change.kind)).toEqual(["restore", "settle", "settle"]);
  });

  it("settles a removal as the field it writes", () => {
    const removal = waits("t1", {}, { kind: "remove", field: null, now: null });
    expect(takeProposed([removal], () => false)).toMatchObject([{ field: "removed", now: true }]);
    expect(settles([removal])).toBe(true);
    expect(settles([waits("n", {}, { kind: "add", field: null })])).toBe(false);
  });

  it("is weighed as plain changes", () => {
    const removal = waits("t1", {}, { kind: "remove", field: null, now: null });
    expect(weighed([...takeProposed([one], () => false), ...takeProposed([removal], () => false)])).toEqual([
      { kind: "set", table: "turns", record: "t1", field: "run", now: { run_s: 60 } },
      { kind: "remove", table: "turns", record: "t1" },
    ]);
  });
});
