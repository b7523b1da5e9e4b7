/** Being called: the person is asked before the browser is, and the server knows before either is believed. */

import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { LineFault } from "../line/fetching";
import { beCalled, beCalledNoMore, bytesOf, callsNow } from "./calling";

const KEY = "-_8";
let permission: string;
let subscription: { toJSON: () => unknown; unsubscribe: () => Promise<boolean> } | null;
let subscribed: boolean;
let asked: [string, string, unknown][];
let answers: (path: string, method: string) => Response;

const json = (body: unknown, status = 200) =>
  new Response(status === 204 ? null : JSON.stringify(body), {
    status,
    headers: { "Content-Type": "application/json" },
  });

beforeEach(() => {
  [permission, subscription, subscribed, asked] = ["granted", null, false, []];
  answers = (_, method) => (method === "GET" ? json({ key: KEY, subscribed }) : json(null, 204));
  const made = { toJSON: () => ({ endpoint: "https://push.example/1" }), unsubscribe: async () => true };
  const pushManager = {
    getSubscription: async () => subscription,
    subscribe: async ({ applicationServerKey }: { applicationServerKey: Uint8Array }) => {
      expect([...applicationServerKey]).toEqual([251, 255]);
      subscription = made;
      return made;
    },
  };
  const worker = { pushManager };
  vi.stubGlobal("navigator", {
    serviceWorker: { ready: Promise.resolve(worker), getRegistration: async () => worker },
  });
  vi.stubGlobal("PushManager", class {});
  vi.stubGlobal("Notification", {
    get permission() {
      return permission;
    },
    requestPermission: async () => permission,
  });
  vi.stubGlobal("fetch", async (path: string, { method = "GET", body }: RequestInit = {}) => {
    asked.push([method, path, body ? JSON.parse(String(body)) : null]);
    return answers(path, method);
  });
});
afterEach(() => vi.unstubAllGlobals());

it("base64url is read as bytes, with its two signs of its own and without padding", () => {
  // RFC 4648, section 10 gives "Zm9vYmE" for "fooba"; the two signs are those of its section 5.
  expect([...bytesOf("Zm9vYmE")]).toEqual([..."fooba"].map((sign) => sign.charCodeAt(0)));
});

it("a person who agrees is called once the server knows where", async () => {
  expect(await callsNow()).toBe("off");
  expect(await beCalled()).toBe("on");
  expect(asked.at(-1)).toEqual(["PUT", "/api/push/subscription", { endpoint: "https://push.example/1" }]);
  subscribed = true;
  expect(await callsNow()).toBe("on");
});

it("one who says no is not, and the server hears nothing", async () => {
  permission = "denied";
  expect([await callsNow(), await beCalled()]).toEqual(["denied", "denied"]);
  expect(asked).toEqual([]);
});

it("a server that does not take it is not believed to call", async () => {
  answers = (_, method) => (method === "GET" ? json({ key: KEY, subscribed }) : json({ detail: "No." }, 422));
  await expect(beCalled()).rejects.toThrow(LineFault);
  expect(await callsNow()).toBe("off");
});

it("calling ends on the server first", async () => {
  await beCalled();
  answers = () => json({ detail: "Busy." }, 503);
  await expect(beCalledNoMore()).rejects.toThrow(LineFault);
  expect(subscription).not.toBeNull();
});

it("a browser without push says so", async () => {
  vi.stubGlobal("navigator", {});
  expect([await callsNow(), await beCalled()]).toEqual(["cannot", "cannot"]);
});
