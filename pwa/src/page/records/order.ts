/** Turns in a program's listed order, and moving one of them with as few changes as can be. */

import type { SiteRecord } from "../site/document";
import { type Draft, withValues } from "./draft";
import { numberOf, type Records } from "./records";

const STEP = 10;
const LAST = 100_000;

const positionOf = (turn: SiteRecord): number => numberOf(turn, "position") ?? 0;

/** A program's turns as the engine takes them: by position, those at the same position by id. */
export function turnsOf(records: Records, program: string): SiteRecord[] {
  return records
    .of("turns")
    .filter((turn) => turn.program === program)
    .sort((a, b) => positionOf(a) - positionOf(b) || (a.id < b.id ? -1 : 1));
}

/** The position after all others. */
export function lastPosition(turns: readonly SiteRecord[]): number {
  return Math.min(LAST, Math.max(0, ...turns.map(positionOf)) + STEP);
}

/** New positions, by turn, that bring the turn at `from` to the place `to`; only those that change. */
export function moved(turns: readonly SiteRecord[], from: number, to: number): Map<string, number> {
  const order = [...turns];
  const [turn] = order.splice(from, 1);
  if (!turn || from === to || to < 0 || to >= turns.length) return new Map();
  order.splice(to, 0, turn);
  const between = gap(order, to);
  return between === null ? renumbered(order) : new Map([[turn.id, between]]);
}

/** A free whole number between the neighbours of a place; null where there is none. */
function gap(order: readonly SiteRecord[], place: number): number | null {
  const [before, after] = [order[place - 1], order[place + 1]];
  const low = before ? positionOf(before) : -1;
  const high = after ? positionOf(after) : low + 2 * STEP;
  const middle = Math.floor((low + high) / 2);
  return middle > low && middle < high && middle <= LAST ? middle : null;
}

function renumbered(order: readonly SiteRecord[]): Map<string, number> {
  const placed = order.map((turn, index) => [turn.id, (index + 1) * STEP, positionOf(turn)] as const);
  return new Map(placed.filter(([, now, was]) => now !== was).map(([id, now]) => [id, now]));
}

export function withMove(draft: Draft, turns: readonly SiteRecord[], from: number, to: number): Draft {
  return [...moved(turns, from, to)].reduce(
    (next, [turn, position]) => withValues(next, "turns", turn, { position }),
    draft,
  );
}
