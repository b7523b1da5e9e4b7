/** How long a station's water runs while somebody looks at it. Counted from instants, so that nothing is lost while the
 * page sleeps, is reloaded or is shut. Seconds; instants are seconds since 1970 by the phone's clock. */

export interface Timer {
  /** What was left when it last began or stopped. Below zero: so long over. */
  left_s: number;
  /** Since when it runs; null: it stands. */
  since: number | null;
}

export function standing(length_s: number): Timer {
  return { left_s: length_s, since: null };
}

/** What is left at an instant; below zero once it is over. A clock that was set back gives nothing back. */
export function leftAt(timer: Timer, at: number): number {
  return timer.since === null ? timer.left_s : timer.left_s - Math.max(0, at - timer.since);
}

export function started(timer: Timer, at: number): Timer {
  return timer.since === null ? { ...timer, since: at } : timer;
}

export function paused(timer: Timer, at: number): Timer {
  return { left_s: leftAt(timer, at), since: null };
}
