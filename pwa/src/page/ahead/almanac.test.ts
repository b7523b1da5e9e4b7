import { describe, expect, it } from "vitest";
import { aNight, aRun, HOUR, NOON } from "../night/builders";
import type { ClosedSpan, NightSheet } from "../night/sheet";
import {
  closedInFree,
  datesFrom,
  fullness,
  meetings,
  mostAtOnce,
  reach,
  shareOf,
  usualClosures,
  wateredTwice,
} from "./almanac";

const at = (hours: number) => NOON + hours * HOUR;

function shut(closure: string | null, from: number, to: number, given: Partial<ClosedSpan> = {}): ClosedSpan {
  return { closure, supply: "lagoon", whole: true, start: at(from), end: at(to), ...given };
}

const day = shut(null, 0, 9, { supply: null });
const morning = shut(null, 18, 25, { supply: null });

function run(program: string | null, from: number, to: number, station = "s") {
  return aRun({ turn: `${program} ${from}`, program, station, start: at(from), end: at(to), flow_lpm: 60 });
}

describe("the dates on show", () => {
  it("are two weeks from tonight", () => {
    const dates = datesFrom("2026-10-24", []);
    expect([dates.length, dates[0], dates[13]]).toEqual([14, "2026-10-24", "2026-11-06"]);
  });
  it("begin with the first night known where tonight is not", () => {
    expect(datesFrom("", ["2026-10-26", "2026-10-25"])[0]).toBe("2026-10-25");
    expect(datesFrom("", [])).toEqual([]);
  });
});

describe("what a program does in a night", () => {
  const sheet: NightSheet = {
    ...aNight([run("a", 9, 10), run("a", 12, 13), run("b", 9, 11)]),
    shortfalls: [
      {
        turn: "t",
        station: "s",
        program: "b",
        supply: "lagoon",
        cycles: 1,
        run_s: 60,
        volume_l: 40,
        why: { code: "w", params: {} },
      },
    ],
  };
  it("is its own runs, first and last, and what did not fit of it", () => {
    const share = shareOf(sheet, "a");
    expect([share.runs.length, share.first, share.last, share.volumeL, share.shortL]).toEqual([
      2,
      at(9),
      at(13),
      7200,
      0,
    ]);
    expect(shareOf(sheet, "b").shortL).toBe(40);
    expect(shareOf(sheet, "c").first).toBeNull();
  });
  it("is everything for the whole site", () => {
    expect(shareOf(sheet).runs).toHaveLength(3);
  });
});

describe("closures", () => {
  const sheet = aNight([], [day, morning, shut("drought", 0, 10), shut("mowing", 17, 25), shut("off", 3, 8)]);
  it("count where they take hours in which water might flow", () => {
    expect(closedInFree(sheet).map((span) => span.closure)).toEqual(["drought", "mowing"]);
  });
  it("lie at the beginning, at the end, within or over it all", () => {
    expect(closedInFree(sheet).map((span) => reach(span, sheet))).toEqual(["until", "from"]);
    expect(reach(shut("tide", 12, 13), sheet)).toBe("within");
    expect(reach(shut("frost", 0, 25), sheet)).toBe("all");
  });
  it("are the rule where many nights have them", () => {
    const other = aNight([], [day, morning, shut("drought", 0, 10)]);
    expect([...usualClosures([{ sheet }, { sheet: other }, { sheet: other }])]).toEqual(["drought"]);
    expect(usualClosures([{ sheet }]).size).toBe(0);
  });
});

it("is full by what the supplies could give in the open hours", () => {
  const sheet = { ...aNight([], [day, morning]), volume_l: 27_000 };
  expect(fullness(sheet, 100)).toBeCloseTo(0.5);
  expect(fullness(sheet, null)).toBeNull();
});

describe("programs that meet", () => {
  const sheet = aNight([run("a", 9, 11), run("b", 10, 12), run("c", 13, 14), run(null, 10, 12), run("b", 10.5, 11)]);
  it("are those that water at the same time", () => {
    expect(meetings(sheet, "a")).toEqual([{ program: "b", start: at(10), end: at(11) }]);
    expect(meetings(sheet, "c")).toEqual([]);
    expect(mostAtOnce(sheet.runs)).toEqual({ count: 2, at: at(10) });
    expect(mostAtOnce([run("a", 9, 10)])).toBeNull();
  });
  it("may water one station in the same night", () => {
    const twice = aNight([run("a", 9, 10, "n1"), run("b", 11, 12, "n1"), run("b", 12, 13, "n2")]);
    expect(wateredTwice(twice)).toEqual([{ station: "n1", programs: ["a", "b"] }]);
  });
});
