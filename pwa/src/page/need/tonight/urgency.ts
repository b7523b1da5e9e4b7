/** Which hydrozone is looked at first: what waters tonight and is driest, then whose night comes soonest. */

import type { ZoneNeed } from "../told/shapes";

/** Of the water that plants take with ease, how much is gone; above 1 they are under stress. Null: nobody knows. */
export function used(zone: Pick<ZoneNeed, "depletion_mm" | "ready_mm">): number | null {
  if (zone.depletion_mm === null || !zone.ready_mm) return null;
  return zone.depletion_mm / zone.ready_mm;
}

export function byUrgency(zones: readonly ZoneNeed[]): ZoneNeed[] {
  return [...zones].sort(
    (a, b) =>
      rank(a) - rank(b) ||
      (a.next_night ?? "9999").localeCompare(b.next_night ?? "9999") ||
      (used(b) ?? 0) - (used(a) ?? 0) ||
      a.hydrozone.localeCompare(b.hydrozone),
  );
}

/** Something is missing: somebody has to look. Then tonight's, then those of later nights, then the rest. */
function rank(zone: ZoneNeed): number {
  if (zone.tonight_mm === null) return 0;
  if (zone.tonight_mm > 0) return 1;
  return zone.next_night ? 2 : 3;
}
