import { describe, expect, it } from "vitest";
import { type Item, type Step, stack } from "./shelves";

const item = (key: string, start: number, end: number, flow: number): Item => ({ key, start, end, flow });

/** At every moment: from foot to top, no two overlap, none sinks below the floor or rises over the limit. */
function overlaps(items: readonly Item[], placed: Map<string, Step[]>, limit: number): string[] {
  const moments = [...new Set(items.flatMap(({ key }) => placed.get(key)?.map((step) => step.start) ?? []))];
  return moments.flatMap((now) => {
    const open = items
      .filter(({ start, end }) => start <= now && end > now)
      .map((one) => ({ ...one, foot: placed.get(one.key)?.findLast((step) => step.start <= now)?.foot ?? Number.NaN }))
      .sort((a, b) => a.foot - b.foot);
    return open.flatMap((one, index) => {
      const next = open[index + 1]?.foot ?? limit;
      return one.foot >= 0 && one.foot + one.flow <= next + 1e-6 ? [] : [`${one.key} at ${now}`];
    });
  });
}

describe("stack", () => {
  it("puts the larger flow below when two start together", () => {
    const placed = stack([item("a", 0, 10, 20), item("b", 0, 10, 50)], 100);
    expect(placed.get("b")).toEqual([{ start: 0, foot: 0 }]);
    expect(placed.get("a")).toEqual([{ start: 0, foot: 50 }]);
  });

  it("uses the lowest shelf that has become free", () => {
    const placed = stack([item("a", 0, 10, 50), item("b", 0, 20, 40), item("c", 10, 20, 30)], 100);
    expect(placed.get("c")).toEqual([{ start: 10, foot: 0 }]);
  });

  it("lets what is open step down where the free height lies in pieces", () => {
    const items = [item("a", 0, 10, 30), item("b", 0, 30, 29), item("c", 0, 20, 28), item("d", 10, 30, 43)];
    const placed = stack(items, 100);
    expect(placed.get("b")).toEqual([
      { start: 0, foot: 30 },
      { start: 10, foot: 0 },
    ]);
    expect(overlaps(items, placed, 100)).toEqual([]);
  });

  it("never overlaps nor passes the limit, whatever fits under it", () => {
    let seed = 7;
    const random = (below: number) => {
      seed = (seed * 48271) % 2147483647;
      return seed % below;
    };
    const items: Item[] = [];
    const draw = new Array<number>(400).fill(0);
    for (let index = 0; index < 900; index++) {
      const start = random(380);
      const one = item(String(index), start, start + 1 + random(20), 1 + random(40));
      const span = draw.slice(one.start, one.end);
      if (span.some((used) => used + one.flow > 100)) continue;
      for (let at = one.start; at < one.end; at++) draw[at] = (draw[at] ?? 0) + one.flow;
      items.push(one);
    }
    expect(items.length).toBeGreaterThan(80);
    expect(overlaps(items, stack(items, 100), 100)).toEqual([]);
  });
});
