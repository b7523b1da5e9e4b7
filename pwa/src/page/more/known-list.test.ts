import { beforeEach, expect, it, vi } from "vitest";
import { forgetLists, knownList } from "./known-list";

const kept: Record<string, string> = {};
const asked = vi.fn<(path: string, request: RequestInit) => Promise<Response>>();
vi.stubGlobal("fetch", asked);
vi.stubGlobal(
  "localStorage",
  new Proxy(kept, {
    get: (target, name) =>
      ({
        getItem: (key: string) => target[key] ?? null,
        setItem: (key: string, value: string) => {
          target[key] = value;
        },
        removeItem: (key: string) => delete target[key],
      })[String(name)],
  }),
);

function json(body: unknown): Response {
  return new Response(JSON.stringify(body), { headers: { "Content-Type": "application/json" } });
}

beforeEach(() => {
  forgetLists();
  asked.mockReset();
});

it("shows the last known list, and since when, where there is no line", async () => {
  const list = knownList<{ id: string }>("p1", "/api/devices");
  asked.mockResolvedValueOnce(json([{ id: "d1" }]));
  await list.load();
  asked.mockRejectedValueOnce(new TypeError("no line"));
  await list.load();
  expect(list.state.value).toMatchObject({ items: [{ id: "d1" }], busy: false, fault: { status: 0 } });
  expect(list.state.value.at).toBeGreaterThan(1_700_000_000);
});

it("knows it again after the page was closed, and not for somebody else", async () => {
  asked.mockResolvedValueOnce(json([{ id: "d1" }]));
  await knownList("p1", "/api/devices").load();
  vi.resetModules();
  const opened = (await import("./known-list")).knownList;
  expect(opened("p1", "/api/devices").state.value.items).toEqual([{ id: "d1" }]);
  expect(opened("p2", "/api/devices").state.value.items).toBeNull();
});

it("keeps nothing of whoever signs out", async () => {
  asked.mockResolvedValueOnce(json([]));
  await knownList("p1", "/api/devices").load();
  forgetLists();
  expect(Object.keys(kept)).toEqual([]);
});

it("takes a captive portal's page for no line", async () => {
  asked.mockResolvedValueOnce(new Response("<html>", { headers: { "Content-Type": "text/html" } }));
  const list = knownList("p1", "/api/devices");
  await list.load();
  expect(list.state.value.fault).toMatchObject({ status: 0 });
});
