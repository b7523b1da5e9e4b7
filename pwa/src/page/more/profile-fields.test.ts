import { expect, it } from "vitest";
import { profileOf, type Spoken, spokenOf } from "./profile-fields";

const spoken: Spoken = {
  language: "es",
  units: "metric",
  ownUnits: { volume: "m3", flow: "lps" },
  hours: "24",
  firstDay: "sun",
  digits: "arab",
};

it("writes what the server reads, and reads it back", () => {
  const profile = profileOf("Inês Falcão", spoken);
  expect(profile).toEqual({
    name: "Inês Falcão",
    language: "es",
    units: "metric,flow=lps,volume=m3",
    hour_cycle: "24",
    first_day: "sun",
    digits: "arab",
  });
  expect(spokenOf(profile)).toEqual(spoken);
});

it("says nothing where the reader leaves it to the language", () => {
  const usual: Spoken = { ...spoken, ownUnits: {}, hours: "", firstDay: "", digits: "latn" };
  expect(profileOf("x", usual)).toMatchObject({ units: "metric", hour_cycle: null, first_day: null, digits: null });
  expect(spokenOf(profileOf("x", usual))).toEqual(usual);
});
