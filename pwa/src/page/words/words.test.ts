import { beforeEach, describe, expect, it } from "vitest";
import english from "../../../generated/catalogues/en.json";
import spanish from "../../../generated/catalogues/es.json";
import { type Catalogue, catalogue, t, tn } from "./catalogue";
import { duration, minutesUntil } from "./durations";
import { digitSigns, figure } from "./figures";
import { clockField, nightSpan, timeOfDay, timeParts } from "./moments";
import {
  chooseReader,
  digits,
  firstDay,
  hours,
  language,
  localeFor,
  matchLanguage,
  ownUnits,
  putChoices,
  units,
} from "./reader";
import { say } from "./say";
import { amount, flow, roughly, volume } from "./units";
import { weekOrder } from "./week";

const names = { name: (kind: string, id: string) => `<${kind} ${id}>`, time: (at: number) => `@${at}` };
const half = new Date(Date.UTC(2026, 9, 24, 23, 42, 10));
const made = (given: Partial<Catalogue>): Catalogue => ({
  language: "x",
  name: "x",
  direction: "ltr",
  plural: "1".repeat(200),
  messages: {},
  sayings: {},
  ...given,
});

/** CLDR has changed its mind about narrow spaces and commas more than once; readers hardly see it. */
const plainSpaces = (text: string) => text.replace(/[\u2009\u202f\u00a0]/g, " ");

beforeEach(() => {
  catalogue.value = english as unknown as Catalogue;
  language.value = "en-GB";
  units.value = "metric";
  hours.value = "";
  ownUnits.value = {};
  digits.value = "latn";
  firstDay.value = "";
});

describe("sentences", () => {
  it("takes English where there is no translation, and keeps placeholders it has no value for", () => {
    expect(t("Finish {time} {other}", { time: "5" })).toBe("Finish 5 {other}");
  });

  it("takes the plural form that the language's own rule names", () => {
    const polish = (n: number) => (n === 1 ? 0 : n % 10 >= 2 && n % 10 <= 4 && (n % 100 < 10 || n % 100 >= 20) ? 1 : 2);
    const plural = Array.from({ length: 200 }, (_, n) => polish(n)).join("");
    catalogue.value = made({
      plural,
      messages: { "{count} run": ["{count} bieg", "{count} biegi", "{count} biegów"] },
    });
    const said = [1, 2, 5, 22, 112, 1003].map((count) => tn("{count} run", "{count} runs", count));
    expect(said).toEqual(["1 bieg", "2 biegi", "5 biegów", "22 biegi", "112 biegów", "1,003 biegi"]);
  });

  it("isolates what was typed where directions could clash", () => {
    catalogue.value = made({ direction: "rtl" });
    expect(t("Finish {time}", { time: "23:42" })).toBe("Finish \u206823:42\u2069");
  });

  it("says what the engine says, in the reader's units and the site's names", () => {
    catalogue.value = made({
      sayings: {
        x: {
          template: "{supply} gives {limit_lpm} for {wait_s} from {open_at}, {left_count} left",
          many: null,
          count: null,
        },
      },
    });
    const params = { supply: "north", limit_lpm: 240, wait_s: 4800, open_at: 7, left_count: 1200 };
    expect(say({ code: "x", params }, names)).toBe("<supply north> gives 240 L/min for 1 h 20 min from @7, 1,200 left");
  });

  it("shows the code of a saying it does not know, rather than nothing", () => {
    expect(say({ code: "from.tomorrow", params: {} }, names)).toBe("from.tomorrow");
  });

  it("knows every saying in Spanish that it knows in English", () => {
    expect(Object.keys(spanish.sayings)).toEqual(Object.keys(english.sayings));
    expect(Object.keys(english.sayings).length).toBeGreaterThan(20);
  });
});

describe("quantities", () => {
  it("follow the reader's units", () => {
    expect([flow(240), volume(950), volume(3840)]).toEqual(["240 L/min", "950 L", "3.8 m³"]);
    units.value = "us";
    // 1 US gallon = 231 in³ = 3.785411784 L (NIST Handbook 44, appendix C).
    expect([flow(240), volume(3840)]).toEqual(["63.4 gpm", "1,014 gal"]);
    units.value = "imperial";
    // 1 UK gallon = 4.54609 L exactly (Weights and Measures Act 1985, schedule 1).
    expect([flow(240), volume(3840)]).toEqual(["52.8 imp gpm", "845 imp gal"]);
  });

  it("are rounded to two figures where they are only known roughly", () => {
    expect([3214, 27.4, 8.5, 0.2].map((metres) => roughly("length", metres))).toEqual([
      "3,200 m",
      "27 m",
      "9 m",
      "0 m",
    ]);
    units.value = "us";
    expect([3214, 27.4].map((metres) => roughly("length", metres))).toEqual(["11,000 ft", "90 ft"]);
  });

  it("follow a unit chosen for one quantity, over the set, and pass over one that is not known", () => {
    ownUnits.value = { flow: "lps", volume: "firkin" };
    expect([flow(240), volume(3840), amount("pressure", 350)]).toEqual(["4 L/s", "3.8 m³", "3.5 bar"]);
  });

  it("are written in the reader's digits", () => {
    digits.value = "arab";
    language.value = "ar";
    expect(figure(1234.5, 1)).toBe("١٬٢٣٤٫٥");
    digits.value = "deva";
    expect(figure(12, 0)).toBe("१२");
    expect(timeOfDay(half)).toMatch(/^[०-९]{2}:[०-९]{2}/);
    expect(digitSigns("arabext")).toBe("۰۱۲۳۴۵۶۷۸۹");
  });

  it("follow the language's decimal sign", () => {
    language.value = "es";
    expect(volume(3840)).toBe("3,8 m³");
  });

  it("leave out what is zero in a length of time, and never promise less than a minute", () => {
    expect([0, 45, 60, 3600, 4800, 3605].map(duration)).toEqual([
      "0 min",
      "45 s",
      "1 min",
      "1 h",
      "1 h 20 min",
      "1 h 5 s",
    ]);
    expect([1, 61, 719].map(minutesUntil)).toEqual(["1 min", "2 min", "12 min"]);
  });
});

describe("times", () => {
  it("are written as the language or the reader has it", () => {
    expect(timeOfDay(half)).toBe("23:42");
    language.value = "en-US";
    expect(plainSpaces(timeOfDay(half))).toBe("11:42 PM");
    expect(timeParts(half)).toEqual({ digits: "11:42", half: "PM" });
    hours.value = "24";
    expect(timeParts(half)).toEqual({ digits: "23:42", half: "" });
    expect(timeOfDay(new Date(Date.UTC(2026, 9, 25, 0, 5)))).toBe("00:05");
  });

  it("read the document's clock fields", () => {
    expect([clockField("21:30"), clockField("24:00"), clockField("sunset-00:30"), clockField("sunrise")]).toEqual([
      "21:30",
      "00:00",
      "30 min before sunset",
      "sunrise",
    ]);
  });

  it("span a night from its date to the next, whatever zone the browser is in", () => {
    expect(plainSpaces(nightSpan("2026-10-31"))).toMatch(/^Sat,? 31 Oct – Sun,? 1 Nov$/);
  });
});

describe("the week", () => {
  it("begins as the reader's region has it, until they choose", () => {
    expect(weekOrder()[0]).toBe("mon");
    language.value = "en-US";
    expect(weekOrder()[0]).toBe("sun");
    firstDay.value = "sat";
    expect(weekOrder()).toEqual(["sat", "sun", "mon", "tue", "wed", "thu", "fri"]);
  });
});

describe("the reader", () => {
  const known = ["en", "es", "pt-BR", "en-XA"];

  it("is asked for by the address, then by what was kept, then by the browser", () => {
    const wishes = ["es-MX", "en"];
    expect(chooseReader(new URLSearchParams("language=en&units=us"), {}, wishes, known)).toMatchObject({
      language: "en",
      units: "us",
    });
    expect(chooseReader(new URLSearchParams(), { language: "en-XA" }, wishes, known).language).toBe("en-XA");
    expect(chooseReader(new URLSearchParams(), {}, wishes, known)).toEqual({
      language: "es",
      units: "metric",
      ownUnits: {},
      hours: "",
      firstDay: "",
      digits: "latn",
      light: "",
      textSize: "",
    });
    expect(chooseReader(new URLSearchParams("units=cubits"), {}, ["en-US"], known).units).toBe("us");
  });

  it("keeps nothing that an older or newer page wrote and this one does not know", () => {
    const kept = { digits: "roman", firstDay: "someday", ownUnits: { flow: 7, volume: "m3" } } as never;
    expect(chooseReader(new URLSearchParams(), kept, [], known)).toMatchObject({
      digits: "latn",
      firstDay: "",
      ownUnits: { volume: "m3" },
    });
  });

  it("puts several choices at once and leaves the others", () => {
    putChoices({ digits: "arab", hours: "12" });
    expect([digits.value, hours.value, units.value]).toEqual(["arab", "12", "metric"]);
  });

  it("matches the longest tag that fits", () => {
    expect(["pt-BR", "pt", "ES-419", "fr"].map((wish) => matchLanguage(wish, known))).toEqual([
      "pt-BR",
      undefined,
      "es",
      undefined,
    ]);
  });

  it("keeps the browser's region for numbers and dates, with Latin digits", () => {
    expect(localeFor("es", ["en", "es-MX"])).toBe("es-MX-u-nu-latn");
    expect(localeFor("ar-XB", [])).toBe("ar-u-nu-latn");
  });
});
