import { beforeEach, describe, expect, it } from "vitest";
import { HOUR, NOON } from "../night/builders";
import { hours, language } from "../words/reader";
import { leapWords } from "./leaps";

beforeEach(() => {
  language.value = "en-GB";
  hours.value = "24";
});

describe("a change of the clock in words", () => {
  it("names the hour that runs twice", () => {
    const back = leapWords({ at: NOON + 14 * HOUR, before_s: HOUR, after_s: 0 });
    expect(back.short).toBe("01:00–02:00 runs twice");
    expect(back.long).toBe("01:00–02:00 runs twice; ² is the second.");
  });

  it("names the half hour that is left out", () => {
    const forward = leapWords({ at: Date.UTC(2026, 9, 3, 15, 30) / 1000, before_s: 10.5 * HOUR, after_s: 11 * HOUR });
    expect(forward.short).toBe("02:00–02:30 is left out");
  });
});
