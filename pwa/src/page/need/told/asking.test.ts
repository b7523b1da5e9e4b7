import { beforeEach, expect, it, vi } from "vitest";
import { answerTo, type Ground, pathOf, type Question, waysOf } from "./asking";

const engine = vi.hoisted(() => ({ ask: vi.fn() }));
vi.mock("../../planner/planner", () => {
  class NoPlanner extends Error {}
  class Unsound extends Error {}
  return { NoPlanner, Unsound, askEngine: engine.ask };
});

const kept = new Map<string, string>();
const fetched = vi.fn<(path: string) => Promise<Response>>();
vi.stubGlobal("fetch", fetched);
vi.stubGlobal(
  "localStorage",
  new Proxy({} as Storage, {
    get: (_, name) =>
      ({
        getItem: (key: string) => kept.get(key) ?? null,
        setItem: (key: string, value: string) => kept.set(key, value),
        removeItem: (key: string) => kept.delete(key),
      })[String(name)],
    ownKeys: () => [...kept.keys()],
    getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
  }),
);

const QUESTION: Question = { about: "work", night: "2026-10-24", of: "p1.s1" };
const GROUND: Ground = {
  whose: "p1",
  site: "quinta",
  revision: 7,
  heard: true,
  unsent: 0,
  planner: false,
  document: { format: 1, records: [] },
  language: "en",
};

function json(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
}

beforeEach(() => {
  kept.clear();
  fetched.mockReset();
  engine.ask.mockReset();
});

it("asks whoever knows most: the server of past nights, the phone of unsent edits", () => {
  const both = { heard: true, planner: true };
  expect(waysOf({ ...both, unsent: 0 }, true, true)).toEqual(["server", "kept", "phone"]);
  expect(waysOf({ ...both, unsent: 2 }, true, true)).toEqual(["phone", "server", "kept"]);
  expect(waysOf({ ...both, heard: false, unsent: 0 }, false, true)).toEqual(["phone", "stale"]);
  expect(waysOf({ heard: false, planner: false, unsent: 0 }, false, false)).toEqual([]);
});

it("keeps the server's answer and shows it again without a line, as long as night and revision are the same", async () => {
  fetched.mockResolvedValueOnce(json({ turn: "p1.s1" }));
  expect(await answerTo(QUESTION, GROUND)).toMatchObject({ found: { turn: "p1.s1" }, from: "server" });
  const alone = { ...GROUND, heard: false };
  expect(await answerTo(QUESTION, alone)).toMatchObject({ found: { turn: "p1.s1" }, from: "server" });
  expect(await answerTo(QUESTION, { ...alone, revision: 8 })).toMatchObject({ from: "kept" });
  expect(await answerTo({ ...QUESTION, night: "2026-10-25" }, alone)).toMatchObject({ from: "kept" });
  expect(await answerTo(QUESTION, { ...alone, whose: "somebody else" })).toMatchObject({ found: null, from: null });
});

it("works it out here rather than show what is out of date", async () => {
  fetched.mockResolvedValueOnce(json({ turn: "old" }));
  await answerTo(QUESTION, GROUND);
  engine.ask.mockResolvedValueOnce({ turn: "new" });
  const told = await answerTo(QUESTION, { ...GROUND, heard: false, planner: true, revision: 8, unsent: 1 });
  expect(told).toMatchObject({ found: { turn: "new" }, from: "phone", counted: true });
  expect(engine.ask.mock.calls[0]?.slice(1)).toEqual([
    "work",
    GROUND.document,
    { night: "2026-10-24", turn: "p1.s1", hydrozone: "p1.s1" },
  ]);
});

it("goes on to the phone where the line breaks, and says what the server said where it has no answer", async () => {
  fetched.mockRejectedValueOnce(new TypeError("no line"));
  engine.ask.mockResolvedValueOnce({ turn: "here" });
  expect(await answerTo(QUESTION, { ...GROUND, planner: true })).toMatchObject({ from: "phone" });
  fetched.mockResolvedValueOnce(json({ detail: "There is no such turn." }, 404));
  expect(await answerTo(QUESTION, GROUND)).toMatchObject({ found: null, detail: "There is no such turn." });
});

it("keeps no more than a phone has room for", async () => {
  for (let number = 0; number < 40; number += 1) {
    fetched.mockResolvedValueOnce(json({ turn: String(number) }));
    await answerTo({ ...QUESTION, of: `t${number}` }, GROUND);
  }
  expect(kept.size).toBe(24);
});

it("knows the server's addresses", () => {
  expect(pathOf(QUESTION, "quinta")).toBe("/api/sites/quinta/need/2026-10-24/turns/p1.s1");
  expect(pathOf(QUESTION, "quinta", true)).toBe("/api/sites/quinta/need/2026-10-24/turns/p1.s1/table.csv");
  expect(pathOf({ about: "season", night: "2026-10-24", of: "lawn" }, "quinta", true)).toBe(
    "/api/sites/quinta/need/hydrozones/lawn/season.csv?until=2026-10-24",
  );
  expect(pathOf({ about: "night", night: "", of: "" }, "quinta")).toBe("/api/sites/quinta/need/tonight");
});
