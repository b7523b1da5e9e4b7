import { signal } from "@preact/signals";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { aNight, aRun, lisbonClockBack, NOON } from "../night/builders";
import { nights, tonightDate } from "../night/nights";
import type { Planned } from "../planner/planner";
import type { DocumentData } from "../site/document";
import { copy } from "../store/queries";
import type { Change } from "../store/shapes";
import { type EffectState, watchEffect } from "./effect";

const asked: {
  document: DocumentData;
  night: string;
  answer: (planned: Planned) => void;
  fail: (fault: Error) => void;
}[] = [];

vi.mock("../planner/planner", async () => {
  const { signal: made } = await import("@preact/signals");
  class Unsound extends Error {}
  class NoPlanner extends Error {}
  return {
    planner: made({ is: "ready", progress: 1 }),
    Unsound,
    NoPlanner,
    planNight: (_: string, document: DocumentData, night: string) =>
      new Promise<Planned>((answer, fail) => asked.push({ document, night, answer, fail })),
  };
});

const { planner, NoPlanner } = await import("../planner/planner");

const NIGHT = "2026-10-24";
const run = (minutes: number) => aRun({ turn: "t", station: "a", start: NOON + 3600, end: NOON + 3600 + minutes * 60 });
const planned = (minutes: number): Planned => ({ sheet: aNight([run(minutes)]), clock: lisbonClockBack() });
const change = (minutes: number): Change => ({
  kind: "set",
  table: "turns",
  record: "t",
  field: "run",
  now: { run_s: minutes * 60, cycles: 1, soak_s: 0 },
});
const finishOf = (state: EffectState) => (state.is === "known" ? state.effect.comparison.after.finish : null);
const pause = () => vi.advanceTimersByTimeAsync(200);

beforeEach(() => {
  vi.useFakeTimers();
  asked.length = 0;
  planner.value = { is: "ready", progress: 1 };
  tonightDate.value = NIGHT;
  nights.value = new Map([
    [NIGHT, { sheet: aNight([run(48)]), clock: lisbonClockBack(), from: "server", behind: false }],
  ]);
  const records = [
    { table: "site", id: "q", name: "Quinta" },
    { table: "turns", id: "t", station: "a", program: "p", run_s: 2880 },
  ];
  copy.value = { site: "q", records, format: 1, revision: 1, role: "lead", people: {} } as unknown as typeof copy.value;
});

afterEach(() => {
  vi.useRealTimers();
});

it("asks once for the last of many keystrokes, with the change laid over the copy", async () => {
  const changes = signal<readonly Change[]>([]);
  const { state, stop } = watchEffect(changes);
  expect(state.value).toEqual({ is: "none" });
  for (const minutes of [5, 52, 60]) changes.value = [change(minutes)];
  expect(state.value.is).toBe("working");
  await pause();
  expect(asked.length).toBe(1);
  expect(asked[0]?.night).toBe(NIGHT);
  expect(asked[0]?.document.records.find((record) => record.id === "t")).toMatchObject({ run_s: 3600 });
  expect(copy.value?.records[1]).toMatchObject({ run_s: 2880 });
  stop();
});

it("never shows what has been overtaken, however late it answers", async () => {
  const changes = signal<readonly Change[]>([change(52)]);
  const { state, stop } = watchEffect(changes);
  await pause();
  changes.value = [change(60)];
  await pause();
  asked[1]?.answer(planned(60));
  await pause();
  expect(finishOf(state.value)).toBe(NOON + 3600 + 3600);
  asked[0]?.answer(planned(52));
  await pause();
  expect(finishOf(state.value)).toBe(NOON + 3600 + 3600);
  stop();
});

it("says so where it will be known after sync, and where the planner is on its way", async () => {
  planner.value = { is: "loading", progress: 0.4 };
  const changes = signal<readonly Change[]>([change(60)]);
  const { state, stop } = watchEffect(changes);
  expect(state.value).toEqual({ is: "loading", progress: 0.4 });
  planner.value = { is: "ready", progress: 1 };
  await pause();
  asked[0]?.fail(new NoPlanner());
  await pause();
  expect(state.value).toEqual({ is: "later" });
  planner.value = { is: "absent", progress: 0 };
  expect(state.value).toEqual({ is: "later" });
  expect(asked.length).toBe(1);
  stop();
});

it("tells the first night in which the changed turn runs, where that is not tonight", async () => {
  const dry = { sheet: aNight([]), clock: lisbonClockBack(), from: "server", behind: false } as const;
  const wet = { ...dry, sheet: { ...aNight([run(48)]), night: "2026-10-26" } };
  nights.value = new Map([
    [NIGHT, dry],
    ["2026-10-26", wet],
  ]);
  const { state, stop } = watchEffect(signal<readonly Change[]>([change(60)]));
  await pause();
  expect(asked[0]?.night).toBe("2026-10-26");
  asked[0]?.answer(planned(60));
  await pause();
  expect(state.value.is === "known" && state.value.effect.tonight).toBe(false);
  stop();
});
