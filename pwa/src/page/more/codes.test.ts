import fc from "fast-check";
import { expect, it } from "vitest";
import { scannedCode, signsIn, typedCode } from "./codes";

const code = fc
  .array(fc.constantFrom(..."34679CDFGHJKMNPRTVWXY"), { minLength: 10, maxLength: 10 })
  .map((signs) => `${signs.slice(0, 5).join("")}-${signs.slice(5).join("")}`);

it("takes every code whatever its case and wherever its spaces and hyphens stand", () => {
  fc.assert(
    fc.property(
      code,
      fc.array(fc.constantFrom(" ", "-", "–", "\u00a0", "\u200f"), { maxLength: 11 }),
      (right, between) => {
        const typed = [...right.replace("-", "").toLowerCase()].map((sign, at) => sign + (between[at] ?? "")).join("");
        expect(typedCode(typed)).toEqual({ grouped: right, whole: right, strange: [] });
      },
    ),
  );
});

it("takes signs of other scripts and full-width ones for what they are", () => {
  expect(typedCode("ｐｆ٤rg ９кт0м").whole).toBe("PF4RG-9KTDM");
});

it("names signs that are in no code, once each, and takes no code with them", () => {
  expect(typedCode("pf8rg-8bt!m")).toEqual({ grouped: "PF8RG-8BT!M", whole: null, strange: ["8", "B", "!"] });
});

it("groups while somebody types, and waits for the tenth sign", () => {
  expect(["p", "pf4rg", "pf4rg9"].map((text) => typedCode(text).grouped)).toEqual(["P", "PF4RG", "PF4RG-9"]);
  expect(typedCode("pf4rg9ktd").whole).toBeNull();
  expect(typedCode("pf4rg9ktdmm").whole).toBeNull();
  expect(signsIn(typedCode("pf4rg-9"))).toBe(6);
});

it("finds the code in an address of ours, and nothing in another's", () => {
  expect(scannedCode("https://water.example.org/join#PF4RG-9KTDM")).toBe("PF4RG-9KTDM");
  expect(scannedCode("PF4RG9KTDM")).toBe("PF4RG-9KTDM");
  expect(scannedCode("https://elsewhere.example/menu#PF4RG-9KTDM")).toBeNull();
  expect(scannedCode("WIFI:S:Quinta das Marés;;")).toBeNull();
});
