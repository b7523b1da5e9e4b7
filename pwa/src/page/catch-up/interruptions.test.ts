import { describe, expect, it } from "vitest";
import { countingIn, endingOf, interruptionsOf, keyOfEnding, type Told } from "./interruptions";

let ids = 0;

function told(at: number, kind: Told["kind"], about: Partial<Told> = {}): Told {
  ids += 1;
  return { id: `entry-${ids}`, at, kind, by: "reporter:cab", ...about };
}

describe("what interrupts a night", () => {
  it("begins once and goes on until its end is told", () => {
    const entries = [told(10, "power_lost", { controller: "a" }), told(12, "power_lost", { controller: "a" })];
    expect(interruptionsOf(entries)).toEqual([
      { key: "power/a", what: "power", since: 10, until: null, controller: "a" },
    ]);
    const over = [...entries, told(20, "power_back", { controller: "a" })];
    expect(interruptionsOf(over).map((one) => one.until)).toEqual([20]);
  });

  it("ends at every cabinet with the power of the whole site, and at no other with that of one", () => {
    const lost = [told(1, "power_lost", { controller: "a" }), told(2, "power_lost", { controller: "b" })];
    const one = interruptionsOf([...lost, told(3, "power_back", { controller: "a" })]);
    const all = interruptionsOf([...lost, told(3, "power_back")]);
    expect([one.map(({ until }) => until), all.map(({ until }) => until)]).toEqual([
      [3, null],
      [3, 3],
    ]);
  });

  it("keeps supplies apart, and a second outage from the first", () => {
    const found = interruptionsOf([
      told(1, "shut", { supply: "north" }),
      told(2, "freed", { supply: "south" }),
      told(3, "freed", { supply: "north" }),
      told(5, "shut", { supply: "north" }),
    ]);
    expect(found.map(({ since, until }) => [since, until])).toEqual([
      [1, 3],
      [5, null],
    ]);
  });

  it("is ended by what names the same part", () => {
    const [shut] = interruptionsOf([told(1, "shut", { supply: "north" })]);
    expect(shut && endingOf(shut)).toEqual({ kind: "freed", supply: "north" });
    const [power] = interruptionsOf([told(1, "power_lost")]);
    expect(power && endingOf(power)).toEqual({ kind: "power_back" });
    for (const one of [shut, power]) expect(one && keyOfEnding(endingOf(one))).toBe(one?.key);
  });
});

describe("what counts of a night's entries", () => {
  it("is what valves and power did within it, the earliest first, and nothing the engine does not know", () => {
    const more = { number: 4, row: null };
    const entries = [
      { ...told(30, "closed", { station: "s1" }), ...more },
      told(25, "note", { text: "wet" }),
      told(20, "opened", { station: "s1" }),
      told(9, "opened", { station: "s0" }),
      told(40, "opened", { station: "s2" }),
    ];
    const found = countingIn(entries, 10, 40);
    expect(found.map(({ at }) => at)).toEqual([20, 30]);
    expect(Object.keys(found[1] ?? {}).sort()).toEqual(["at", "by", "id", "kind", "station"]);
  });
});
