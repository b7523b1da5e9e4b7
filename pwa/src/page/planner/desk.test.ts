import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { FromPlanner, PlannerList, ToPlanner } from "../../wire/planning";
import { Desk, type DeskState, type Job, NoPlanner } from "./desk";
import type { WorkerLike } from "./hand";

const LIST = { version: "1", files: [] } as unknown as PlannerList;
const JOB: Job = { document: "{}", night: "2026-10-24", effort: 3, before: null };

/** Does what a test tells it to. */
class FakeWorker implements WorkerLike {
  heard: ToPlanner[] = [];
  ended = false;
  #listeners = new Map<string, (event: never) => void>();

  postMessage(word: ToPlanner): void {
    this.heard.push(word);
  }
  terminate(): void {
    this.ended = true;
  }
  addEventListener(kind: string, listener: (event: never) => void): void {
    this.#listeners.set(kind, listener);
  }
  tell(data: FromPlanner): void {
    this.#listeners.get("message")?.({ data } as never);
  }
  crash(message: string): void {
    this.#listeners.get("error")?.({ message } as never);
  }
  plans(): Extract<ToPlanner, { ask: "plan" }>[] {
    return this.heard.filter((word) => word.ask === "plan");
  }
  answer(sheet: string): void {
    this.tell({ tell: "planned", id: this.plans().at(-1)?.id ?? 0, sheet, clock: "{}" });
  }
}

function setUp(list: () => PlannerList | null = () => LIST) {
  const workers: FakeWorker[] = [];
  const told: DeskState[] = [];
  const make = () => {
    workers.push(new FakeWorker());
    return workers.at(-1) as FakeWorker;
  };
  const desk = new Desk({ make, list: async () => list(), tell: (state) => told.push(state) });
  const latest = () => workers.at(-1) as FakeWorker;
  return { desk, workers, told, latest };
}

async function ready() {
  const all = setUp();
  await all.desk.start();
  all.latest().tell({ tell: "ready", version: "1" });
  return all;
}

/** What waits for the lock of each worker that has become ready. */
let lives: (() => void)[] = [];

beforeEach(() => {
  vi.useFakeTimers();
  lives = [];
  vi.stubGlobal("navigator", { locks: { request: async (_: string, free: () => void) => void lives.push(free) } });
  vi.spyOn(console, "warn").mockImplementation(() => {});
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe("the planner's desk", () => {
  it("tells how far it is, and when it is ready", async () => {
    const { desk, told, latest } = setUp();
    await desk.start();
    latest().tell({ tell: "progress", done: 5, of: 10 });
    latest().tell({ tell: "ready", version: "1" });
    expect(told.map(({ is, progress }) => [is, progress])).toEqual([
      ["loading", 0],
      ["loading", 0.5],
      ["ready", 1],
    ]);
  });

  it("is started once however often it is asked to", async () => {
    const { desk, workers } = setUp();
    await Promise.all([desk.start(), desk.start()]);
    await desk.start();
    expect(workers).toHaveLength(1);
  });

  it("asks one thing at a time, and of one topic only the latest", async () => {
    const { desk, latest } = await ready();
    const [first, second, third] = ["1", "2", "3"].map((document) => desk.ask("effect", false, { ...JOB, document }));
    await expect(second).rejects.toMatchObject({ name: "AbortError" });
    expect(latest().plans()).toHaveLength(1);
    latest().answer("first");
    await expect(first).resolves.toMatchObject({ sheet: "first" });
    expect(latest().plans().at(-1)).toMatchObject({ document: "3", effort: 3 });
    latest().answer("third");
    await expect(third).resolves.toMatchObject({ sheet: "third" });
  });

  it("asks for more than nights in between, and hands on what is known", async () => {
    const { desk, latest } = await ready();
    const night = desk.ask("effect", false, JOB);
    const asked = desk.ask("suggestions", false, { about: "suggestions", document: "{}", given: "{}" });
    latest().answer("sheet");
    await expect(night).resolves.toMatchObject({ sheet: "sheet" });
    expect(latest().heard.at(-1)).toEqual({ ask: "know", id: 2, about: "suggestions", document: "{}", given: "{}" });
    latest().tell({ tell: "known", id: 2, found: "[]" });
    await expect(asked).resolves.toEqual({ tell: "known", id: 2, found: "[]" });
  });

  it("refuses before it is ready", async () => {
    const { desk } = setUp();
    await expect(desk.ask("effect", false, JOB)).rejects.toBeInstanceOf(NoPlanner);
  });

  it("loses one ask without falling", async () => {
    const { desk, workers, latest } = await ready();
    const lost = desk.ask("effect", false, JOB);
    latest().tell({ tell: "lost", id: 1, why: "KeyError" });
    await expect(lost).rejects.toBeInstanceOf(NoPlanner);
    const next = desk.ask("effect", false, JOB);
    latest().answer("next");
    await expect(next).resolves.toMatchObject({ sheet: "next" });
    expect(workers).toHaveLength(1);
  });

  it.each<[string, (worker: FakeWorker) => void]>([
    ["a crash", (worker) => worker.crash("out of memory")],
    ["no memory", (worker) => worker.tell({ tell: "failed", why: "MemoryError", line: false })],
    ["an end without a word", () => lives.at(-1)?.()],
    ["no answer", () => vi.advanceTimersByTime(120_000)],
  ])("is started anew after %s, and what waited is told", async (_, fall) => {
    const { desk, workers, latest } = await ready();
    const asks = [desk.ask("effect", false, JOB), desk.ask("replan", true, JOB)];
    const told = Promise.allSettled(asks);
    fall(latest());
    for (const one of await told) expect(one).toMatchObject({ status: "rejected", reason: expect.any(NoPlanner) });
    await vi.advanceTimersByTimeAsync(0);
    expect(workers.map(({ ended }) => ended)).toEqual([true, false]);
    latest().tell({ tell: "ready", version: "1" });
    expect(desk.state.is).toBe("ready");
  });

  it("is gone for good when it falls again and again", async () => {
    const { desk, workers, latest } = setUp();
    await desk.start();
    for (let fall = 1; fall <= 4; fall += 1) {
      latest().crash("no memory");
      await vi.advanceTimersByTimeAsync(0);
    }
    expect(desk.state.is).toBe("absent");
    expect(workers).toHaveLength(4);
    await desk.start();
    expect(workers).toHaveLength(4);
  });

  it("forgives falls that lie long back", async () => {
    const { desk, latest } = setUp();
    await desk.start();
    for (let fall = 1; fall <= 8; fall += 1) {
      latest().crash("no memory");
      await vi.advanceTimersByTimeAsync(4 * 60_000);
    }
    expect(desk.state.is).toBe("loading");
  });

  it("waits for the line, and tries again", async () => {
    let there = false;
    const { desk, workers, latest } = setUp(() => (there ? LIST : null));
    await desk.start();
    expect([desk.state.is, workers.length]).toEqual(["waiting", 0]);
    there = true;
    await vi.advanceTimersByTimeAsync(60_000);
    latest().tell({ tell: "failed", why: "the line broke", line: true });
    expect([desk.state.is, latest().ended]).toEqual(["waiting", true]);
    await desk.start();
    expect([desk.state.is, workers.length]).toEqual(["loading", 2]);
  });

  it("hears nothing of a worker that has ended", async () => {
    const { desk, workers, latest } = await ready();
    latest().crash("no memory");
    await vi.advanceTimersByTimeAsync(0);
    workers[0]?.tell({ tell: "ready", version: "1" });
    expect(desk.state.is).toBe("loading");
  });
});
