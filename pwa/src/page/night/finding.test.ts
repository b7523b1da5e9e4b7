import { describe, expect, it } from "vitest";
import { aSite } from "./builders";
import { find, fold, partsOf } from "./finding";

const station = (id: string, number: string, name: string, part: string) => ({
  table: "stations",
  id,
  number,
  name,
  part,
});
const site = aSite(
  station("a", "114", "Relvado das Marés", "Água Nova"),
  station("b", "14", "Oak walk", "North meadow"),
  station("c", "141", "Long border", "North meadow"),
  station("d", "7", "مَمشى النخيل", "الحديقة الشمالية"),
);
const ids = (typed: string) => find(site, typed).stations.map((one) => one.id);

describe("finding a station", () => {
  it("cares for neither accents nor case", () => {
    expect(ids("mares")).toEqual(["a"]);
    expect(ids("MARÉS")).toEqual(["a"]);
    expect(fold("Straße Łódź Ærø")).toBe("strasse lodz aero");
  });

  it("puts the number itself first, then numbers that begin so", () => {
    expect(ids("14")).toEqual(["b", "c", "a"]);
  });

  it("takes several words in any order, over number, name and part", () => {
    expect(ids("meadow oak")).toEqual(["b"]);
    expect(ids("oak palms")).toEqual([]);
  });

  it("reads Arabic without its vowel signs, and its digits", () => {
    expect(ids("ممشي")).toEqual(["d"]);
    expect(ids("٧")).toEqual(["d"]);
  });

  it("names the parts of the grounds that fit, in the document's order", () => {
    expect(partsOf(site)).toEqual(["Água Nova", "North meadow", "الحديقة الشمالية"]);
    expect(find(site, "agua").parts).toEqual(["Água Nova"]);
    expect(find(site, " ").parts).toEqual([]);
  });
});
