import { expect, test } from "vitest";
import { notificationOf, readPushed } from "./pushed";

const BREAK = {
  site: "park",
  alarm: "a1",
  title: "The park",
  text: "North gives 30 L/min more than the open stations take.",
  language: "en",
  gravity: "grave",
};

test("an alarm is shown in its own words, and one that is told again takes its place", () => {
  const shown = notificationOf(readPushed(JSON.stringify(BREAK)));
  expect(shown).toMatchObject({ title: "The park", body: BREAK.text, tag: "a1", lang: "en", dir: "ltr" });
  expect(shown.requireInteraction).toBe(true);
});

test("what is written from right to left is shown so", () => {
  expect(notificationOf(readPushed(JSON.stringify({ ...BREAK, language: "ar" }))).dir).toBe("rtl");
  expect(notificationOf(readPushed(JSON.stringify({ ...BREAK, language: "arn" }))).dir).toBe("ltr");
});

test.each(["", "not JSON", "[]", "null", '"text"', '{"alarm":"a1"}'])("%s still shows that something came", (text) => {
  expect(readPushed(text)).toBeNull();
  expect(notificationOf(readPushed(text)).title).toBe("Pengan");
});
