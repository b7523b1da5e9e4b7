import { expect, it } from "vitest";
import english from "../../../../generated/catalogues/en.json";
import { TABLES } from "../../records/fields";
import { remedyFor } from "./remedies";

/** Decisions and cautions: nothing is wrong, and nothing is to be done. */
const INFORMS = ["caution", "tonight", "tonight_share", "later", "not_in_sight", "drought_off", "no_days_ahead"];

it("tells what to do about everything that can be wrong with a night's figures", () => {
  const about = [
    "no_area",
    "no_audit",
    "odd_rate",
    "no_hydrozone",
    "no_soil",
    "no_roots",
    "no_coefficient",
    "no_start",
  ];
  const others = ["no_place", "runs_off", "long_turn", "no_weather", "hours_missing", "no_rain_reading"];
  for (const code of [...about, ...others]) {
    expect(Object.keys(english.sayings)).toContain(`need.${code}`);
    expect(remedyFor({ code: `need.${code}`, params: { station: "s1", hydrozone: "h1" } })?.words, code).toBeTruthy();
  }
  for (const code of INFORMS) expect(remedyFor({ code: `need.${code}`, params: {} }), code).toBeNull();
});

it("leads to records that there are", () => {
  const flag = remedyFor({ code: "weather.swapped", params: { row: "day-1" } });
  expect(flag?.way).toMatchObject({ room: "site", words: ["weather", "day-1"] });
  const ways = Object.keys(english.sayings).map((code) => remedyFor({ code, params: { station: "s", row: "r" } })?.way);
  for (const way of ways) if (way?.room === "site") expect(TABLES).toContain(way.words[0]);
});
