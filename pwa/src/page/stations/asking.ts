/** Asking for an extra run: what goes into the record, and what speaks against it. */

import type { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";

export type When = "fits" | "now" | "at";

export interface Asking {
  /** One of the two. */
  station: string | null;
  program: string | null;
  run_s: number;
  when: When;
  at: string | null;
}

export const FIRST_RUN_S = 600;

export function askedChange(
  asking: Asking,
  night: string,
  by: string,
  id: string,
  clock: SiteClock,
  now: number,
): Change {
  const what = asking.station ? { station: asking.station, run_s: asking.run_s } : { program: asking.program };
  const at = asking.when === "at" ? asking.at : asking.when === "now" ? nextMinute(clock, now) : null;
  return {
    kind: "add",
    table: "asked",
    record: id,
    now: { night, ...what, ...(at ? { at } : {}), ...(by ? { by } : {}) },
  };
}

/** The site's wall at the next whole minute: what is asked for now cannot start in the past. */
export function nextMinute(clock: SiteClock, now: number): string {
  return clock
    .wall(Math.floor(now / 60) * 60 + 60)
    .toISOString()
    .slice(11, 16);
}

/** The supplies whose water comes out: of the station, or of all stations in the program. */
function suppliesOf(document: SiteDocument, { station, program }: Asking): string[] {
  const stations = station
    ? [station]
    : document
        .all("turns")
        .filter((turn) => turn.program === program)
        .map((turn) => String(turn.station));
  return [...new Set(stations.map((id) => String(document.record("stations", id)?.supply ?? "")))];
}

export function isReclaimed(document: SiteDocument, asking: Asking): boolean {
  return suppliesOf(document, asking).some((supply) =>
    upTo(document, supply).some((id) => document.record("supplies", id)?.water === "reclaimed"),
  );
}

/** The supply and all that feed it. */
function upTo(document: SiteDocument, supply: string): string[] {
  const found: string[] = [];
  for (let at: string | null = supply; at && !found.includes(at); at = document.supplies.get(at)?.fedBy ?? null)
    found.push(at);
  return found;
}

/** The usual cautions. They defer to local codes and licensed practice. */
export function cautionsFor(document: SiteDocument, asking: Asking): string[] {
  const said = [
    t(
      "Make sure nobody is on the grounds where water will come, and that nobody works on the pipes: they are under pressure.",
    ),
    t("Keep cabinets and valve boxes closed, and have wiring worked on only by those licensed for it."),
  ];
  if (isReclaimed(document, asking)) {
    said.push(
      t(
        "This is reclaimed water: keep people away from its spray, never drink it, and follow the health and water authorities.",
      ),
    );
  }
  said.push(t("Pengan changes the plan; it does not open a valve. Local codes and your site's rules come first."));
  return said;
}
