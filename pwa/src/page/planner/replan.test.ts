import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { aNight, lisbonClockBack } from "../night/builders";
import { type KnownNight, nights, tonightDate } from "../night/nights";
import type { SiteRecord } from "../site/document";
import { copy } from "../store/queries";
import { NoPlanner, planNight, planner, Unsound } from "./planner";
import { followOutbox, sameGround } from "./replan";

vi.mock("./planner", async (original) => ({ ...(await original<typeof import("./planner")>()), planNight: vi.fn() }));

const TONIGHT = "2026-10-24";
const NEXT = "2026-10-25";
const clock = lisbonClockBack();
const asked = vi.mocked(planNight);
let stop = () => {};

function server(night: string, behind: boolean): KnownNight {
  return { sheet: { ...aNight([]), night }, clock, from: "server", behind };
}

function theCopy(...records: SiteRecord[]): void {
  copy.value = { site: "here", format: 1, revision: 1, role: "lead", people: {}, records };
}

const calm = () => vi.advanceTimersByTimeAsync(20_000);
const planned = () => asked.mock.calls.map(([, document, night]) => [night, document.records.length]);

beforeEach(() => {
  vi.useFakeTimers();
  asked.mockImplementation(async (_, __, night) => ({ sheet: { ...aNight([]), night, volume_l: 7 }, clock }));
  planner.value = { is: "ready", progress: 1 };
  tonightDate.value = TONIGHT;
  theCopy();
  nights.value = new Map([
    [NEXT, server(NEXT, true)],
    [TONIGHT, server(TONIGHT, true)],
  ]);
});
afterEach(() => {
  stop();
  vi.useRealTimers();
  asked.mockReset();
});

describe("nights with edits that the server does not know", () => {
  it("are planned here, tonight first, each once", async () => {
    stop = followOutbox();
    await calm();
    expect(planned().map(([night]) => night)).toEqual([TONIGHT, NEXT]);
    const here = nights.value.get(TONIGHT);
    expect([here?.from, here?.behind, here?.sheet.volume_l]).toEqual(["phone", false, 7]);
  });

  it("start from the server's sheet with the server's effort, and let others go first", async () => {
    stop = followOutbox();
    await calm();
    const [topic, document, , before, how] = asked.mock.calls[0] ?? [];
    expect([topic, document]).toEqual([`replan ${TONIGHT}`, { format: 1, records: [] }]);
    expect(before).toEqual(server(TONIGHT, true).sheet);
    expect(how).toEqual({ effort: 8, lazy: true });
  });

  it("are behind again with the next edit, and planned again from the server's sheet", async () => {
    stop = followOutbox();
    await calm();
    theCopy({ table: "turns", id: "t", run_s: 600 });
    expect([...nights.value.values()].map(({ behind }) => behind)).toEqual([true, true]);
    await calm();
    expect(planned()).toEqual([
      [TONIGHT, 0],
      [NEXT, 0],
      [TONIGHT, 1],
      [NEXT, 1],
    ]);
    expect(asked.mock.calls[2]?.[3]?.volume_l).toBe(0);
  });

  it("are left alone where the copy comes anew with nothing changed", async () => {
    stop = followOutbox();
    await calm();
    theCopy();
    await calm();
    expect(planned()).toHaveLength(2);
  });

  it("give way to the server's own sheet", async () => {
    let answer = (_: Awaited<ReturnType<typeof planNight>>) => {};
    asked.mockImplementation(() => new Promise((resolve) => (answer = resolve)));
    stop = followOutbox();
    await vi.advanceTimersByTimeAsync(1000);
    nights.value = new Map([[TONIGHT, server(TONIGHT, false)]]);
    answer({ sheet: aNight([]), clock });
    await calm();
    expect(nights.value.get(TONIGHT)?.from).toBe("server");
  });

  it("stay behind where the document is unsound, without trying for ever", async () => {
    asked.mockRejectedValue(new Unsound([]));
    stop = followOutbox();
    await calm();
    expect(planned()).toHaveLength(2);
    expect(nights.value.get(TONIGHT)).toMatchObject({ from: "server", behind: true });
  });

  it("are tried again once the planner is back", async () => {
    asked.mockImplementationOnce(() => {
      planner.value = { is: "loading", progress: 0 };
      return Promise.reject(new NoPlanner());
    });
    stop = followOutbox();
    await calm();
    expect(planned()).toHaveLength(1);
    planner.value = { is: "ready", progress: 1 };
    await calm();
    expect(nights.value.get(TONIGHT)?.from).toBe("phone");
  });

  it("are not planned where nothing is behind", async () => {
    nights.value = new Map([[TONIGHT, server(TONIGHT, false)]]);
    stop = followOutbox();
    await calm();
    expect(planned()).toEqual([]);
  });
});

it("knows a ground again by its records", () => {
  const ground = (site: string, ...records: SiteRecord[]) => ({ site, format: 1, records });
  const record = { table: "turns", id: "t", run_s: 60 };
  expect(sameGround(ground("a", record), ground("a", { ...record }))).toBe(true);
  expect(sameGround(ground("a", record), ground("b", record))).toBe(false);
  expect(sameGround(ground("a", record), ground("a", { ...record, run_s: 61 }))).toBe(false);
  expect(sameGround(ground("a", record), ground("a"))).toBe(false);
});
