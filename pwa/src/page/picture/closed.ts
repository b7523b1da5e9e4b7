/** When a lane is shut, as a whole or in part: closures and missing windows, merged so that no stretch is hatched twice. */

import type { ClosedSpan } from "../night/sheet";
import type { SiteDocument } from "../site/document";
import type { Stretch } from "./axis";
import { above, type Lane } from "./lanes";

export interface LaneSpan {
  /** A closure that shuts it; null where no window is open. */
  closure: string | null;
  start: number;
  end: number;
}

export interface LaneClosed {
  whole: LaneSpan[];
  /** Only some of the lane's stations are meant. */
  some: LaneSpan[];
}

/** A closure of the lane's own supply, or of what feeds it, shuts the lane; one of a main inside it, some stations. */
export function closedIn(
  lane: Lane,
  closed: readonly ClosedSpan[],
  document: SiteDocument,
  stretch: Stretch,
): LaneClosed {
  const feeding = new Set(above(document, lane.supply));
  const shuts = (span: ClosedSpan) => span.whole && (span.supply === null || feeding.has(span.supply));
  const touches = (span: ClosedSpan) =>
    span.supply === null || lane.supplies.has(span.supply) || feeding.has(span.supply);
  const whole = merged(within(closed.filter(shuts), stretch));
  const some = closed.filter((span) => !shuts(span) && touches(span));
  return { whole, some: merged(outside(within(some, stretch), whole)) };
}

function within(spans: readonly LaneSpan[], { from, to }: Stretch): LaneSpan[] {
  return spans
    .map(({ closure, start, end }) => ({ closure, start: Math.max(start, from), end: Math.min(end, to) }))
    .filter((span) => span.start < span.end);
}

/** Overlapping spans as one, under the name of its first closure. */
function merged(spans: readonly LaneSpan[]): LaneSpan[] {
  const found: LaneSpan[] = [];
  for (const span of [...spans].sort((a, b) => a.start - b.start || b.end - a.end)) {
    const last = found[found.length - 1];
    if (!last || span.start > last.end) found.push({ ...span });
    else {
      last.end = Math.max(last.end, span.end);
      last.closure ??= span.closure;
    }
  }
  return found;
}

/** What is left of the spans outside the holes. */
function outside(spans: readonly LaneSpan[], holes: readonly LaneSpan[]): LaneSpan[] {
  return holes.reduce<LaneSpan[]>((left, hole) => left.flatMap((span) => cut(span, hole)), [...spans]);
}

function cut(span: LaneSpan, hole: LaneSpan): LaneSpan[] {
  const before = { ...span, end: Math.min(span.end, hole.start) };
  const after = { ...span, start: Math.max(span.start, hole.end) };
  return [before, after].filter((piece) => piece.start < piece.end);
}
