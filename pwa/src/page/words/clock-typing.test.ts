import { beforeEach, describe, expect, it } from "vitest";
import { clockText, clockValue, readClock } from "./clock-typing";
import { WordsFault } from "./numbers";
import { language } from "./reader";

beforeEach(() => {
  language.value = "en-GB";
});

describe("a time of day", () => {
  it("is read however people write it", () => {
    const typed = [
      "21:30",
      "2130",
      "9.30 pm",
      "21h30",
      "9 PM",
      "12 am",
      "12:15 p.m.",
      "24:00",
      "7",
      "٢١:٣٠",
      "05:07:09",
    ];
    expect(typed.map(readClock)).toEqual([
      "21:30",
      "21:30",
      "21:30",
      "21:30",
      "21:00",
      "00:00",
      "12:15",
      "24:00",
      "07:00",
      "21:30",
      "05:07:09",
    ]);
  });

  it("takes the reader's own word for the half of the day", () => {
    language.value = "ar";
    expect(readClock("9:30 م")).toBe("21:30");
  });

  it("is refused where there is none", () => {
    for (const typed of ["", "25:00", "24:01", "12:60", "13 pm", "noon", "9 xm"]) {
      expect(() => readClock(typed), typed).toThrow(WordsFault);
    }
  });
});

it("takes clock fields apart and puts them together", () => {
  for (const text of ["21:30", "24:00", "sunrise", "sunset-00:30", "sunrise+01:15"]) {
    expect(clockText(clockValue(text))).toBe(text);
  }
});
