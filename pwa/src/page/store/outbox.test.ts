/** Edits as the outbox makes, folds, splits, sends and drops them. */

import { describe, expect, it } from "vitest";
import type { OutboxEdit } from "./kept";
import { laidOver } from "./laying";
import {
  bytesOf,
  type Draft,
  draftsOf,
  FULL_EDITS,
  fullnessOf,
  type Grounds,
  givesWay,
  inPlaceOf,
  inverseOf,
  MOST_BYTES,
  MOST_EDITS,
  nextPush,
  pushOf,
  setsOf,
  WARN_AFTER_S,
  without,
} from "./outbox";
import type { Change } from "./shapes";

const TURN = { table: "turns", id: "p1.s1", run_s: 600, cycles: 2 };
const RUN = { run_s: 600, cycles: 2, soak_s: null };

function grounds(own: Grounds["own"] = []): Grounds {
  const record = { record: TURN, versions: { run: 4 }, order: 0 };
  return {
    shown: new Map([["turns/p1.s1", TURN]]),
    records: new Map([["turns/p1.s1", record]]),
    removed: new Map([["turns/gone", { version: 3 }]]),
    own,
  };
}

function act() {
  let number = 0;
  return { site: "s", person: "ines", cursor: 7, phone_time: "t", kept_at: 100, newId: () => `e${number++}` };
}

const setRun = (run_s: number): Change => ({
  kind: "set",
  table: "turns",
  record: "p1.s1",
  field: "run",
  now: { run_s },
});
const placed = (drafts: Draft[], from = 1): OutboxEdit[] => drafts.map((edit, at) => ({ ...edit, place: from + at }));

describe("an edit", () => {
  it("carries the whole group, what was on the screen, and the version that was seen", () => {
    const [edit] = draftsOf([setRun(900)], grounds(), act());
    expect(edit).toMatchObject({ now: { run_s: 900, cycles: null, soak_s: null }, was: RUN, before: RUN, seen: 4 });
    expect(edit).toMatchObject({ person: "ines", site: "s", cursor: 7, settles: null, sent: false });
  });

  it("names one's own earlier edit where the copy has not got it yet", () => {
    const [first] = draftsOf([setRun(900)], grounds(), act());
    const [edit] = draftsOf([setRun(1200)], grounds(placed([first as Draft])), { ...act(), newId: () => "later" });
    expect(edit?.seen).toBe(first?.id);
  });

  it("names an earlier edit of the same act, and has found on the screen what that one set", () => {
    const [one, two] = draftsOf([setRun(900), setRun(1200)], grounds(), act());
    expect(two).toMatchObject({ seen: one?.id, was: one?.now });
  });

  it("that changes nothing is none", () => {
    const same = (cycles: number, soak_s: number | null) =>
      ({ ...setRun(600), now: { run_s: 600, cycles, soak_s } }) as Change;
    expect(draftsOf([same(2, null)], grounds(), act())).toEqual([]);
    expect(draftsOf([same(2, 0)], grounds(), act())).toEqual([]);
    expect(draftsOf([same(1, 0)], grounds(), act())).toHaveLength(1);
  });

  it("that removes has seen every field that moved or is about to", () => {
    const own = [{ id: "mine", kind: "set" as const, table: "turns", record: "p1.s1", field: "position" }];
    const [edit] = draftsOf([{ kind: "remove", table: "turns", record: "p1.s1" }], grounds(own), act());
    expect(edit?.seen).toEqual({ run: 4, position: "mine" });
  });

  it("that brings back has seen the removal", () => {
    const [edit] = draftsOf([{ kind: "restore", table: "turns", record: "gone" }], grounds(), act());
    expect(edit).toMatchObject({ seen: 3, field: null, now: null });
  });
});

describe("an act of many edits", () => {
  const many = (count: number, text: string): Change[] =>
    Array.from({ length: count }, (_, at) => ({
      kind: "set",
      table: "stations",
      record: `s${at}`,
      field: "name",
      now: text,
    }));

  it("goes out in sets of a hundred that are one act to whoever takes it back", () => {
    const sets = setsOf(placed(draftsOf(many(250, "x"), grounds(), act())));
    expect(sets.map((set) => set.length)).toEqual([100, 100, 50]);
    expect(new Set(sets.flat().map((edit) => edit.together)).size).toBe(1);
  });

  it("goes out in sets that the server's limit of bytes lets through, whatever the script", () => {
    const sets = setsOf(placed(draftsOf(many(90, "\u0645".repeat(2000)), grounds(), act())));
    expect(sets.length).toBeGreaterThan(1);
    for (const set of sets) expect(set.reduce((sum, edit) => sum + bytesOf(edit), 0)).toBeLessThanOrEqual(MOST_BYTES);
  });
});

describe("a push", () => {
  it("takes whole sets only, as many as fit, and one alone where asked", () => {
    const small = (id: string, count: number): Draft[] =>
      draftsOf(
        Array.from({ length: count }, (_, at) => ({
          kind: "set",
          table: "stations",
          record: `${id}${at}`,
          field: "name",
          now: "y",
        })),
        grounds(),
        {
          ...act(),
          newId: (() => {
            let at = 0;
            return () => `${id}.${at++}`;
          })(),
        },
      );
    const outbox = [...placed(small("a", 60), 1), ...placed(small("b", 60), 100), ...placed(small("c", 20), 200)];
    expect(nextPush(outbox, false)).toHaveLength(60);
    expect(nextPush(outbox.slice(60), false)).toHaveLength(80);
    expect(nextPush(outbox.slice(60), true)).toHaveLength(60);
    const aside = outbox.map((edit) => (edit.set === "a.0" ? { ...edit, aside: { status: 422, detail: "" } } : edit));
    expect(nextPush(aside, false)[0]?.set).toBe("b.0");
    expect(nextPush(outbox, false).length).toBeLessThanOrEqual(MOST_EDITS);
  });

  it("says no more of an edit than the protocol knows", () => {
    const push = pushOf(placed(draftsOf([setRun(900)], grounds(), act())), "ines", "phone");
    expect(push).toMatchObject({ person: "ines", device: "phone", sets: [{ id: "e0", site: "s", cursor: 7 }] });
    expect(Object.keys(push.sets[0]?.edits[0] ?? {}).sort()).toEqual([
      "field",
      "format",
      "id",
      "kind",
      "now",
      "phone_time",
      "record",
      "seen",
      "settles",
      "table",
      "was",
    ]);
  });
});

describe("folding", () => {
  const [first] = placed(draftsOf([setRun(900)], grounds(), act())) as [OutboxEdit];
  const again = draftsOf([setRun(1200)], grounds([first]), { ...act(), newId: () => "later" });

  it("lets an unsent edit of the same field give way, and takes over what it had seen", () => {
    expect(givesWay([first], again)).toBe(first);
    expect(inPlaceOf(first, again[0] as Draft)).toMatchObject({ was: RUN, seen: 4, now: { run_s: 1200 } });
  });

  it("leaves what was sent, and what stands or falls with others", () => {
    expect(givesWay([{ ...first, sent: true }], again)).toBeNull();
    expect(givesWay([first, { ...first, id: "other", record: "p1.s2" }], again)).toBeNull();
  });
});

describe("dropping unsent edits", () => {
  it("leaves later ones what the dropped had seen", () => {
    const [first] = placed(draftsOf([setRun(900)], grounds(), act())) as [OutboxEdit];
    const later = placed(draftsOf([setRun(1200)], grounds([first]), { ...act(), newId: () => "later" }), 2);
    expect(without([first, ...later], [first])).toMatchObject([{ id: "later", seen: 4, was: RUN }]);
    const removal = placed(
      draftsOf([{ kind: "remove", table: "turns", record: "p1.s1" }], grounds([first]), {
        ...act(),
        newId: () => "gone",
      }),
      3,
    );
    expect(without([first, ...removal], [first])).toMatchObject([{ seen: { run: 4 } }]);
  });

  it("is not possible where something was added and changed since", () => {
    const at = { table: "stations", record: "new" };
    const [added] = placed(draftsOf([{ kind: "add", ...at, now: {} }], grounds(), act())) as [OutboxEdit];
    const named = placed(
      draftsOf([{ kind: "set", ...at, field: "name", now: "x" }], grounds([added]), {
        ...act(),
        newId: () => "later",
      }),
      2,
    );
    expect(without([added, ...named], [added])).toBeNull();
  });
});

it("an act set back leaves the site as it was", () => {
  const records = new Map([["turns/p1.s1", { record: TURN }]]);
  const changes: Change[] = [
    setRun(900),
    { kind: "set", table: "turns", record: "p1.s1", field: "position", now: 2 },
    { kind: "add", table: "closures", record: "k", now: { name: "Mown" } },
    setRun(1500),
    { kind: "remove", table: "turns", record: "p1.s1" },
  ];
  const made = placed(draftsOf(changes, grounds(), act()));
  const after = laidOver(records, new Map(), made);
  expect([...after.keys()]).toEqual(["closures/k"]);
  const back = inverseOf(made).map((change) => ({ field: null, now: null, ...change }));
  expect(laidOver(records, new Map(), [...made, ...back])).toEqual(new Map([["turns/p1.s1", TURN]]));
});

it("the outbox warns after three days or two hundred edits, and is full at five thousand or two megabytes", () => {
  const edits = (count: number, kept_at: number) => Array.from({ length: count }, () => ({ kept_at }));
  expect(fullnessOf(edits(199, 0), 0, WARN_AFTER_S - 1)).toBe("ok");
  expect(fullnessOf(edits(1, 0), 0, WARN_AFTER_S)).toBe("warn");
  expect(fullnessOf(edits(200, 5), 0, 5)).toBe("warn");
  expect(fullnessOf(edits(FULL_EDITS, 5), 0, 5)).toBe("full");
  expect(fullnessOf(edits(1, 5), 2 * 1024 * 1024, 5)).toBe("full");
});
