import { expect, it } from "vitest";
import { entryOf } from "./acting";
import { EXPLAINED } from "./shapes";

it.each(EXPLAINED)("tells the journal later what was chosen: %s", (explained) => {
  const said = { kind: "alarm_explained", alarm: "alarm-0001", explained };
  expect(entryOf("alarm-0001", { kind: "explained", explained, text: "" })).toEqual(said);
  const text = "By the gate";
  expect(entryOf("alarm-0001", { kind: "explained", explained, text })).toEqual({ ...said, text });
});
