import { describe, expect, it, vi } from "vitest";

vi.stubGlobal("location", { pathname: "/" });
const { askedBy, nightFrom, nightsAround } = await import("./turning");

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

  it("reads the night from the address, and tonight from an address without one", () => {
    expect(askedBy([])).toBe("tonight");
    expect(askedBy(["2026-10-27"])).toBe("2026-10-27");
    expect(askedBy(["2026-13-45"])).toBeNull();
    expect(askedBy(["soon"])).toBeNull();
  });
});
