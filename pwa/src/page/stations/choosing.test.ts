import { beforeEach, expect, it } from "vitest";
import { chosen, endChoosing, toggle, toggleAll } from "./choosing";

beforeEach(endChoosing);

it("chooses one by one, and a group as a whole", () => {
  toggle("a");
  toggleAll(["a", "b", "c"]);
  expect([...chosen.value].sort()).toEqual(["a", "b", "c"]);
  toggle("b");
  expect([...chosen.value].sort()).toEqual(["a", "c"]);
  toggleAll(["a", "c"]);
  expect(chosen.value.size).toBe(0);
});
