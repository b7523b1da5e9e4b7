import { describe, expect, it } from "vitest";
import { Queue } from "./queue";

function filled(...asks: [topic: string, lazy: boolean, job: string][]) {
  const queue = new Queue<string>();
  const gaveWay: string[] = [];
  for (const [topic, lazy, job] of asks) queue.add({ topic, lazy, job, giveWay: () => gaveWay.push(job) });
  return { queue, gaveWay };
}

function drained(queue: Queue<string>): string[] {
  const jobs: string[] = [];
  for (let next = queue.next(); next; next = queue.next()) jobs.push(next.job);
  return jobs;
}

describe("the queue", () => {
  it("keeps the latest ask of each topic", () => {
    const { queue, gaveWay } = filled(["a", false, "a1"], ["b", false, "b1"], ["a", false, "a2"], ["a", false, "a3"]);
    expect(gaveWay).toEqual(["a1", "a2"]);
    expect(drained(queue)).toEqual(["b1", "a3"]);
  });

  it("lets what somebody waits for go first", () => {
    const { queue } = filled(["night 1", true, "lazy 1"], ["night 2", true, "lazy 2"], ["effect", false, "urgent"]);
    expect(drained(queue)).toEqual(["urgent", "lazy 1", "lazy 2"]);
  });

  it("does not let an ask give way that has been handed out", () => {
    const { queue, gaveWay } = filled(["a", false, "a1"]);
    expect(queue.next()?.job).toBe("a1");
    queue.add({ topic: "a", lazy: false, job: "a2", giveWay: () => gaveWay.push("a2") });
    expect(gaveWay).toEqual([]);
  });
});
