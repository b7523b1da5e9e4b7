/** When sync speaks, and what it says of the line. */

import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Loop, stateAfter } from "./loop";
import type { Ending } from "./round";

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

function aLoop(endings: Ending[], expecting = () => false) {
  const greeted: boolean[] = [];
  const shown: string[] = [];
  const loop = new Loop({
    round: async (greet) => {
      greeted.push(greet);
      return endings.shift() ?? { how: "in_step" };
    },
    alone: (work) => work(),
    ended: async () => undefined,
    show: (now) => shown.push(now),
    expecting,
    unsent: () => false,
    now: () => Date.now(),
    chance: () => 0,
  });
  return { loop, greeted, shown };
}

it("greets at the start and after a silence, and speaks again by itself ever later", async () => {
  const silent: Ending = { how: "silent", wait_ms: null };
  const { loop, greeted, shown } = aLoop([silent, silent, { how: "in_step" }]);
  loop.wake();
  await loop.rest();
  expect([greeted, shown]).toEqual([[true], ["no_signal"]]);
  await vi.advanceTimersByTimeAsync(1999);
  expect(greeted).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(1);
  expect(greeted).toEqual([true, true]);
  await vi.advanceTimersByTimeAsync(4000);
  expect([greeted, shown.at(-1)]).toEqual([[true, true, true], "in_step"]);
  loop.wake();
  await loop.rest();
  expect(greeted.at(-1)).toBe(false);
  loop.stop();
});

it("leaves the server alone for as long as it asks", async () => {
  const { loop, greeted } = aLoop([{ how: "silent", wait_ms: 90_000 }]);
  loop.wake();
  await vi.advanceTimersByTimeAsync(89_000);
  expect(greeted).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(1000);
  expect(greeted).toHaveLength(2);
  loop.stop();
});

it("what comes up while it speaks is spoken of at once afterwards", async () => {
  const { loop, greeted } = aLoop([]);
  loop.wake();
  loop.wake();
  loop.wake();
  await loop.rest();
  expect(greeted).toHaveLength(2);
  loop.stop();
});

it("looks again soon where nights are still being planned, then ever later", async () => {
  const { loop, greeted } = aLoop([], () => true);
  loop.wake();
  await loop.rest();
  await vi.advanceTimersByTimeAsync(3000);
  expect(greeted).toHaveLength(2);
  await vi.advanceTimersByTimeAsync(6000);
  expect(greeted).toHaveLength(3);
  loop.stop();
});

it("what the screens are told of the line", () => {
  expect(stateAfter({ how: "in_step" }, false)).toBe("in_step");
  expect(stateAfter({ how: "later" }, true)).toBe("sending");
  expect(stateAfter({ how: "silent", wait_ms: null }, true)).toBe("no_signal");
  expect(stateAfter({ how: "signed_out" }, true)).toBe("signed_out");
  expect(stateAfter({ how: "update_needed" }, true)).toBe("update_needed");
  expect(stateAfter({ how: "found" }, false)).toBeNull();
});
