/** Which answers count, and how long a phone waits after one that does not. */

import { afterEach, describe, expect, it, vi } from "vitest";
import { isAnswer, lineTo, mayBeLater, pauseAfter, type Reply, SILENCE, waitOf } from "./line";

afterEach(() => vi.unstubAllGlobals());

async function replyTo(response: () => Promise<Response>): Promise<Reply> {
  vi.stubGlobal("fetch", response);
  return await lineTo("", () => "en", 50)("/api/sync/push", {});
}

const answered =
  (status: number, headers: Record<string, string>, body = "{}") =>
  () =>
    Promise.resolve(new Response(body, { status, headers }));
const OURS = { "Content-Type": "application/json", "Pengan-Protocol": "1" };

describe("a reply", () => {
  it("is an answer where it is ours and well", async () => {
    expect(isAnswer(await replyTo(answered(200, OURS)))).toBe(true);
  });

  it.each([
    ["a hotel's page", answered(200, { "Content-Type": "text/html" }, "<p>Welcome")],
    ["JSON of somebody else", answered(200, { "Content-Type": "application/json" })],
    ["a page with our header", answered(200, { ...OURS, "Content-Type": "text/html" }, "<p>")],
    ["broken JSON", answered(200, OURS, "{")],
    ["a broken line", () => Promise.reject(new TypeError("failed"))],
    [
      "nothing within the time",
      () =>
        new Promise<Response>((_, reject) => setTimeout(() => reject(new DOMException("late", "TimeoutError")), 60)),
    ],
    ["a session that ran out", answered(401, OURS)],
    ["a time-out", answered(408, OURS)],
    ["too many", answered(429, OURS)],
    ["a server in trouble", answered(503, OURS)],
    ["a proxy in trouble", answered(502, { "Content-Type": "text/html" }, "<p>")],
    ["a proxy's refusal", answered(403, { "Content-Type": "text/html" }, "<p>")],
  ])("%s is none: keep and try again", async (_, response) => {
    const reply = await replyTo(response);
    expect([isAnswer(reply), mayBeLater(reply)]).toEqual([false, true]);
  });

  it("that turns the call itself away will not fare better later", async () => {
    const reply = await replyTo(answered(422, { ...OURS, "Content-Type": "application/problem+json" }));
    expect([isAnswer(reply), mayBeLater(reply), reply.ours]).toEqual([false, false, true]);
  });

  it("that did not come is silence", () => {
    expect([isAnswer(SILENCE), mayBeLater(SILENCE)]).toEqual([false, true]);
  });
});

it("the server's wish to be left alone is a number of seconds or a date", () => {
  expect(waitOf("7")).toBe(7000);
  expect(waitOf("Sat, 24 Oct 2026 23:00:10 GMT", Date.UTC(2026, 9, 24, 23, 0, 0))).toBe(10_000);
  expect(waitOf("Sat, 24 Oct 2026 22:00:00 GMT", Date.UTC(2026, 9, 24, 23, 0, 0))).toBe(0);
  expect([waitOf(null), waitOf("soon")]).toEqual([null, null]);
});

it("pauses grow to five minutes, differ by chance, and are never shorter than asked", () => {
  expect([pauseAfter(1, 0), pauseAfter(1, 1)]).toEqual([2000, 4000]);
  expect(pauseAfter(30, 1)).toBe(5 * 60_000);
  expect(pauseAfter(1, 1, 90_000)).toBe(90_000);
});
