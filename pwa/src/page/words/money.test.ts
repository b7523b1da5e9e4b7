import { afterEach, expect, it } from "vitest";
import { money } from "./money";
import { language } from "./reader";

afterEach(() => {
  language.value = "en";
});

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ").replace(/[\u200e\u200f]/g, "");

it("is written as the reader's language writes it, with the currency's own decimals", () => {
  expect(money("1234.5", "EUR")).toBe("€1,234.50");
  expect(money("1234.50", "JPY")).toBe("¥1,235");
  language.value = "de";
  expect(plain(money("1234.5", "EUR"))).toBe("1.234,50 €");
});

it("is a bare figure without a currency, or with what is none", () => {
  expect(money("12.40", null)).toBe("12.4");
  expect(money(12, "€")).toBe("12");
});
