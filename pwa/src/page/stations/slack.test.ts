import { expect, it } from "vitest";
import { mostMinutes } from "./slack";

it("finds the most minutes that hold, in five looks", async () => {
  for (const most of [0, 1, 2, 17, 31]) {
    const looked: number[] = [];
    const found = await mostMinutes(async (minutes) => {
      looked.push(minutes);
      return minutes <= most;
    });
    expect(found).toBe(most);
    expect(looked.length).toBeLessThanOrEqual(5);
  }
});
