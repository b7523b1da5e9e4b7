import { describe, expect, it, vi } from "vitest";
import { aNight, HOUR, lisbon, NOON } from "./builders";

vi.stubGlobal("location", { pathname: "/" });
const { askedBy, nightFrom, nightsAround, tonightBy } = await import("./turning");
const { now } = await import("./now");

describe("turning from night to night", () => {
  it("reaches from last night through two weeks, over the end of a month", () => {
    const nights = nightsAround("2026-10-24");
    expect([nights[0], nights[1], nights[nights.length - 1]]).toEqual(["2026-10-23", "2026-10-24", "2026-11-06"]);
  });

  it("stops at the first and the last of them", () => {
    expect(nightFrom("2026-10-24", "2026-10-24", 1)).toBe("2026-10-25");
    expect(nightFrom("2026-10-24", "2026-10-23", -1)).toBeNull();
    expect(nightFrom("2026-10-24", "2026-11-06", 1)).toBeNull();
  });

  it("tells tonight from the wall of any night that is known", () => {
    const known = { sheet: { ...aNight([]), night: "2026-10-27" }, clock: lisbon() };
    now.value = NOON - 1;
    expect(tonightBy(known)).toBe("2026-10-23");
    now.value = NOON + 11 * HOUR;
    expect(tonightBy(known)).toBe("2026-10-24");
    now.value = NOON + 25 * HOUR;
    expect(tonightBy(known)).toBe("2026-10-25");
  });

  it("reads the night from the address, and tonight from an address without one", () => {
    expect(askedBy([])).toBe("tonight");
    expect(askedBy(["2026-10-27"])).toBe("2026-10-27");
    expect(askedBy(["2026-13-45"])).toBeNull();
    expect(askedBy(["soon"])).toBeNull();
  });
});
