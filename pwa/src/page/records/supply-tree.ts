/** Supplies as the tree they are: sources first, each followed by the mains it feeds. */

import type { SiteRecord } from "../site/document";
import { type Records, textOf } from "./records";

export interface TreeRow {
  supply: SiteRecord;
  /** How many supplies lie between it and its source. */
  depth: number;
  /** The last of those fed by the same supply. */
  last: boolean;
  stations: number;
}

export function supplyTree(records: Records): TreeRow[] {
  const supplies = records.of("supplies");
  const known = new Set(supplies.map((supply) => supply.id));
  const rows: TreeRow[] = [];
  const seen = new Set<string>();
  const walk = (fed: SiteRecord[], depth: number) => {
    for (const supply of fed) {
      if (seen.has(supply.id)) continue;
      seen.add(supply.id);
      rows.push({ supply, depth, last: supply === fed[fed.length - 1], stations: stationsOn(records, supply.id) });
      walk(
        supplies.filter((other) => other.fed_by === supply.id),
        depth + 1,
      );
    }
  };
  walk(
    supplies.filter((supply) => !known.has(textOf(supply, "fed_by"))),
    0,
  );
  // A ring has no source: it is a fault, and is shown all the same.
  walk(supplies, 0);
  return rows;
}

function stationsOn(records: Records, supply: string): number {
  return records.of("stations").filter((station) => station.supply === supply).length;
}

/** A supply and everything it feeds, so that it cannot be chosen as what feeds it. */
export function fedBy(records: Records, supply: string): Set<string> {
  const found = new Set([supply]);
  for (let grew = true; grew; ) {
    const next = records.of("supplies").filter((one) => found.has(textOf(one, "fed_by")) && !found.has(one.id));
    for (const one of next) found.add(one.id);
    grew = next.length > 0;
  }
  return found;
}
