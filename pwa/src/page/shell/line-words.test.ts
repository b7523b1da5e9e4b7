import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Counts, LineState } from "../store/shapes";
import { NOTHING } from "../store/unsent";
import { hours, language } from "../words/reader";
import { lineFill, lineWords, noSignalWords, signedOutWords, whenHere } from "./line-words";

const NOW = new Date(2026, 9, 24, 23, 30);
const at = (hour: number, minute: number, day = 24) => new Date(2026, 9, day, hour, minute).getTime() / 1000;
const unsent = (counts: Partial<Counts> = {}): Counts => ({ ...NOTHING, ...counts });
const line = (now: LineState["now"]): LineState => ({ now, spoke: at(23, 29), silent_since: null });

beforeEach(() => {
  vi.useFakeTimers({ now: NOW });
  language.value = "en";
  hours.value = "24";
});
afterEach(() => vi.useRealTimers());

test("the chip says it in words beside the bowl", () => {
  expect(lineWords(line("in_step"), 0)).toBe("In step 23:29");
  expect(lineWords(line("sending"), 3)).toBe("Sending, 3 unsent");
  expect(lineWords(line("in_step"), 1)).toBe("Sending, 1 unsent");
  expect(lineWords(line("sending"), 0)).toBe("Fetching");
  expect(lineWords(line("no_signal"), 3)).toBe("No signal, 3 unsent");
  expect(lineWords(line("no_signal"), 0)).toBe("No signal");
  expect(lineWords(line("signed_out"), 0)).toBe("Signed out");
  expect(lineWords(line("update_needed"), 0)).toBe("Update needed");
});

test("the bowl is full, half or empty", () => {
  expect((["in_step", "sending", "no_signal", "signed_out"] as const).map(lineFill)).toEqual([
    "full",
    "half",
    "empty",
    "empty",
  ]);
});

test("no signal: since when, and what is safe", () => {
  expect(noSignalWords(at(22, 48), unsent({ edits: 3 }))).toBe(
    "No signal since 22:48. 3 unsent edits are safe on this phone.",
  );
  expect(noSignalWords(at(22, 48), unsent({ edits: 1 }))).toBe(
    "No signal since 22:48. 1 unsent edit is safe on this phone.",
  );
  expect(noSignalWords(at(22, 48), unsent())).toBe("No signal since 22:48. What you see is from then.");
  expect(noSignalWords(null, unsent())).toBe("No signal.");
});

test("whatever waits is counted, each kind by its name", () => {
  expect(noSignalWords(at(22, 48), unsent({ photos: 1 }))).toBe(
    "No signal since 22:48. 1 unsent photo is safe on this phone.",
  );
  expect(noSignalWords(null, unsent({ edits: 2, entries: 1, photos: 3, rests: 1 }))).toBe(
    "No signal. 2 unsent edits, 1 unsent entry of the journal, 3 unsent photos, and 1 unsent choice of how a night goes on are safe on this phone.",
  );
});

test("a time of another day comes with its day", () => {
  expect(whenHere(at(22, 48, 22), NOW.getTime())).toMatch(/22.*22:48/);
});

test("signed out: the edits wait for the person they belong to", () => {
  expect(signedOutWords("Inês Falcão", unsent({ edits: 2 }))).toBe(
    "Signed out. 2 unsent edits are safe on this phone, and wait until Inês Falcão signs in.",
  );
  expect(signedOutWords("", unsent())).toBe("Signed out. What you see may be old.");
});
