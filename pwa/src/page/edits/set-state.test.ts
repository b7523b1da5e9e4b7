import { expect, it } from "vitest";
import type { Edit, Waiting } from "../store/shapes";
import { stateOf, waits } from "./set-state";

const edit = (set: string, sent = false): Edit => ({
  id: `e-${set}-${sent}`,
  set,
  site: "s",
  person: "p",
  kind: "set",
  table: "turns",
  record: "t",
  field: "run",
  seen: 1,
  was: null,
  now: null,
  format: 1,
  phone_time: "",
  settles: null,
  sent,
});
const waiting = (set: string, tray: Waiting["tray"]): Waiting => ({
  tray,
  open: true,
  edit: { id: "e", set, table: "turns", record: "t", field: "run" },
  answer: { id: "e", set, outcome: tray },
  closed_how: null,
  closed_by: null,
  closed_at: null,
  effect: null,
});

it("follows a set from the phone until it is in force", () => {
  expect(stateOf("a", [edit("a"), edit("b", true)], [])).toBe("unsent");
  expect(stateOf("a", [edit("a", true), edit("a")], [])).toBe("unsent");
  expect(stateOf("b", [edit("a"), edit("b", true)], [])).toBe("sending");
  expect(stateOf("c", [edit("a")], [])).toBe("in_force");
});

it("tells what waits for a decision before anything else", () => {
  expect(stateOf("a", [edit("a")], [waiting("a", "disputed")])).toBe("disputed");
  expect(waits("disputed")).toBe(true);
  expect(waits("sending")).toBe(false);
});
