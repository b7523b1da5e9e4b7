import fc from "fast-check";
import { beforeEach, describe, expect, it } from "vitest";
import conversions from "../../../../fixtures/units/conversions.json";
import table from "../../../../fixtures/units/read.json";
import english from "../../../generated/catalogues/en.json";
import { type Catalogue, catalogue } from "./catalogue";
import { figure } from "./figures";
import { asNumber, readFigure, WordsFault } from "./numbers";
import { readAmount, readDuration } from "./parsing";
import { language, type UnitSet, units } from "./reader";

type Row = [tag: string, set: UnitSet, quantity: string, typed: string, read: number | string];

const read = (quantity: string, typed: string): number | string => {
  try {
    return quantity === "duration" ? readDuration(typed) : readAmount(quantity, typed);
  } catch (error) {
    if (error instanceof WordsFault) return error.words.code;
    throw error;
  }
};

const near = (a: number | string, b: number | string) =>
  typeof a === "number" && typeof b === "number" ? Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(b)) : a === b;

beforeEach(() => {
  catalogue.value = english as unknown as Catalogue;
  language.value = "en-GB";
  units.value = "metric";
});

/** The server writes this table from its own units layer, so that both read the same. */
it("reads what people type as the server does", () => {
  const differing = (table as Row[])
    .map(([tag, set, quantity, typed, expected]) => {
      language.value = tag;
      units.value = set;
      return { tag, set, quantity, typed, expected, got: read(quantity, typed) };
    })
    .filter(({ expected, got }) => !near(got, expected));
  expect(differing).toEqual([]);
});

describe("published conversions", () => {
  const expected = (id: string, name: string) => {
    const found = conversions.cases.find((one) => one.id === id)?.expected as Record<string, number> | undefined;
    return found?.[name] ?? Number.NaN;
  };

  it("hold for what is typed", () => {
    // NIST Handbook 44 appendix C and SP 811 appendix B.8, as the fixture says beside each value.
    expect(readAmount("volume", "1 US gal")).toBeCloseTo(expected("us-gallon-L", "L"), 9);
    expect(readAmount("depth", "1 in")).toBeCloseTo(expected("inch-mm", "mm"), 9);
    expect(readAmount("length", "1 ft")).toBeCloseTo(expected("foot-m", "m"), 9);
    expect(readAmount("volume", "1 ac-ft") / 1000).toBeCloseTo(expected("acre-foot", "m3"), 6);
  });
});

describe("numbers", () => {
  it("come back from how they are written, in every language", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -9_999_999, max: 9_999_999 }),
        fc.constantFrom("en-GB", "es", "de", "pt"),
        (n, tag) => {
          language.value = tag;
          expect(asNumber(readFigure(figure(n / 10, 1)))).toBeCloseTo(n / 10, 9);
        },
      ),
    );
  });

  it("are never half understood", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const got = read("flow", text);
        if (typeof got === "number") expect(Number.isFinite(got)).toBe(true);
        else expect(got).toMatch(/^words\./);
      }),
    );
  });
});
