import { afterEach, expect, test, vi } from "vitest";
import { beforeReload, saveDrafts } from "./drafts";

afterEach(() => vi.useRealTimers());

test("a reload waits for every draft, and a draft that fails holds up no other", async () => {
  const saved: string[] = [];
  const ends = [
    beforeReload(() => Promise.reject(new Error("full"))),
    beforeReload(async () => {
      await Promise.resolve();
      saved.push("late");
    }),
    beforeReload(() => {
      saved.push("at once");
    }),
  ];
  await saveDrafts();
  expect(saved).toEqual(["at once", "late"]);
  for (const end of ends) end();
  await saveDrafts();
  expect(saved).toHaveLength(2);
});

test("a draft that never ends does not hold the app for ever", async () => {
  vi.useFakeTimers();
  const end = beforeReload(() => new Promise(() => undefined));
  const saving = saveDrafts();
  await vi.advanceTimersByTimeAsync(3000);
  await expect(saving).resolves.toBeUndefined();
  end();
});
