/** A walk and its time, step by step. */

import { describe, expect, it } from "vitest";
import { leftAt, paused, standing, started } from "./timer";
import { readWalk } from "./under-way";
import { back, count, end, isOver, lasting, newWalk, next, noted, pause, skip, start, stopAt, without } from "./walk";

const NOW = 1_800_000_000;
const OF = { owner: "ines", site: "park" };
const seen = { entry: "e1", repair: "r1", found: "head" as const, count: 2 };
const walk = () => newWalk(OF, ["s1", "s2", "s3"], 120, NOW);

describe("a station's time", () => {
  it("stands until it is started, and runs by the clock whether anybody looks or not", () => {
    expect(leftAt(standing(120), NOW + 500)).toBe(120);
    expect(leftAt(started(standing(120), NOW), NOW + 50)).toBe(70);
    expect(leftAt(started(standing(120), NOW), NOW + 130)).toBe(-10);
  });

  it("goes on where it was paused, and is not begun twice", () => {
    const stopped = paused(started(standing(120), NOW), NOW + 50);
    expect(leftAt(stopped, NOW + 1000)).toBe(70);
    const again = started(stopped, NOW + 1000);
    expect(leftAt(started(again, NOW + 1030), NOW + 1040)).toBe(30);
  });

  it("gains nothing by a clock that is set back", () => {
    expect(leftAt(started(standing(120), NOW), NOW - 3600)).toBe(120);
  });
});

describe("a walk", () => {
  it("goes on, back and past, each station with its whole time again", () => {
    const second = next(start(walk(), NOW), NOW + 60);
    expect([stopAt(second)?.station, second.timer]).toEqual(["s2", standing(120)]);
    const third = skip(second, NOW + 90);
    expect(third.stops.map((stop) => stop.fate)).toEqual(["checked", "skipped", "ahead"]);
    expect(stopAt(back(third))?.station).toBe("s2");
    expect(back(walk())).toEqual(walk());
  });

  it("ends after the last, and can be taken up again", () => {
    const over = [1, 2, 3].reduce((now, by) => next(now, NOW + by * 60), walk());
    expect([isOver(over), over.ended, count(over, "checked")]).toEqual([true, NOW + 180, 3]);
    expect([isOver(next(over, NOW)), stopAt(back(over))?.station, back(over).ended]).toEqual([true, "s3", null]);
  });

  it("ended early leaves the others as not reached", () => {
    const over = end(next(walk(), NOW + 60), NOW + 70);
    expect([isOver(over), count(over, "ahead"), over.ended]).toEqual([true, 2, NOW + 70]);
  });

  it("keeps what was found where it was found: such a station was looked at, skipped or not", () => {
    const found = noted(next(walk(), NOW), seen);
    expect(found.stops.map((stop) => stop.seen.length)).toEqual([0, 1, 0]);
    expect(skip(found, NOW).stops[1]?.fate).toBe("checked");
    expect(back(next(found, NOW)).stops[1]?.seen).toEqual([seen]);
  });

  it("gives each station another time from now on, but not while water runs", () => {
    expect(lasting(walk(), 60).timer).toEqual(standing(60));
    const running = start(walk(), NOW);
    expect([lasting(running, 60).timer, next(lasting(running, 60), NOW).timer]).toEqual([running.timer, standing(60)]);
    expect(pause(running, NOW + 20).timer).toEqual({ left_s: 100, since: null });
  });

  it("loses a station that was removed, and stays at the one it was at", () => {
    const third = next(next(walk(), NOW), NOW);
    const left = without(third, (station) => station !== "s1");
    expect([left.stops.length, stopAt(left)?.station]).toEqual([2, "s3"]);
    expect(isOver(without(third, (station) => station !== "s3"))).toBe(true);
  });

  it("is read back as it was kept, and what is none is none", () => {
    const running = start(noted(walk(), seen), NOW);
    expect(readWalk(JSON.stringify(running))).toEqual(running);
    for (const text of [null, "", "{", "null", "[]", "{}", JSON.stringify({ ...running, stops: [{ station: 3 }] })]) {
      expect(readWalk(text)).toBeNull();
    }
  });
});
