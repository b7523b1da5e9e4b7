/** A line of help for every field of the document. `table.field` where tables differ, else the field alone. */

import { t } from "../words/catalogue";
import { NEED_HELPS } from "./need-helps";
import { REPAIR_HELPS } from "./repair-words";

export function fieldHelp(table: string, field: string): string {
  return (HELPS[`${table}.${field}`] ?? HELPS[field] ?? (() => ""))();
}

const SHARED: Record<string, () => string> = {
  notes: () => t("Whatever the crew should know."),
  days: () => t("The dates on which it happens."),
  weekdays: () => t("With days of the week: which ones."),
  every_n_days: () => t("With every so many days: how many from one to the next."),
  every_from: () => t("With every so many days: the first date; the others follow from it."),
  dates: () => t("With listed dates: the dates."),
  season_from: () => t("First day of the season. Needs its last day too."),
  season_to: () => t("Last day of the season; before the first it lies in the next year."),
  supply: () => t("Only what hangs on this supply."),
  controller: () => t("Only stations of this cabinet."),
  hydrozone: () => t("Only stations of this hydrozone."),
  program: () => t("Only runs of this program."),
  station: () => t("Only this station."),
};

const OF_WHAT_CARRIES: Record<string, () => string> = {
  "site.name": () => t("What people call the site."),
  "site.zone": () => t("The zone whose clock the site goes by."),
  "site.zone_rule": () => t("Where no zone fits: a POSIX TZ rule (RFC 9636), as WET0WEST,M3.5.0/1,M10.5.0."),
  "site.zone_changes": () =>
    t("Where no rule fits: the first offset, then each change with its date, separated by commas."),
  "site.latitude_deg": () => t("Degrees, north positive. Sunrise and sunset need it."),
  "site.longitude_deg": () => t("Degrees, east positive. Sunrise and sunset need it."),
  "site.elevation_m": () => t("Height of the grounds above the sea."),
  "site.seasonal_pct": () => t("Every run time is multiplied by this; 100 leaves it as it is."),
  "site.aim": () => t("Whether nights end as early as can be, or run as late as the finish allows."),
  "site.catch_up_by_itself": () =>
    t(
      "What becomes of the rest of a night once power or water is back, or a stop is lifted, if nobody accepts it " +
        "first. Caution: water then runs again by itself, where people may stand in the spray or work on pipes, heads " +
        "or cabinets. Follow local codes and licensed practice.",
    ),
  "site.finish_by": () => t("When the night’s watering has to be over."),
  "supplies.name": () => t("What people call the supply."),
  "supplies.fed_by": () => t("The supply that feeds this main. A source has none."),
  "supplies.water": () => t("What water it is."),
  "supplies.limit_lpm": () => t("The most it may give at once. Empty: no limit of its own."),
  "supplies.steady_lpm": () => t("The flow it is held near, to spare its pump."),
  "supplies.least_lpm": () => t("The least it may give while it gives any."),
  "supplies.lead_s": () => t("How long a source takes from being called until it gives water."),
  "supplies.counter_l": () =>
    t("Where the counter of its meter begins again at 0: one more than all its digits can show. Empty: not known."),
  "supplies.watch_least_lpm": () =>
    t("A smaller difference between what flows and what should is not told of. Empty: the usual one."),
  "supplies.watch_share_pct": () =>
    t("Nor is one smaller than this share of what the open stations take. Empty: the usual one."),
  "supplies.watch_hold_s": () =>
    t("How long a difference twice as large has to last until it is told of. Empty: the usual time."),
  "supplies.watch_silent_s": () => t("How long its meter may say nothing. Empty: the usual time."),
  "supplies.shut_above_lpm": () =>
    t(
      "Above so much flow the server orders this supply shut, by itself and in your name. Empty: it never does. " +
        "Caution: shutting a main fast can burst pipes, and whoever depends on its water gets none. Follow local codes " +
        "and licensed practice, and see to it that a person can open it again by hand.",
    ),
  "supplies.shut_after_s": () => t("How long the flow has to stay above that first."),
  "controllers.name": () => t("What people call the cabinet."),
  "controllers.max_open": () => t("How many of its valves may be open at once."),
  "controllers.max_current_ma": () => t("The most current its valves may draw together."),
  "controllers.valve_gap_s": () => t("How long a valve’s place rests after it closes."),
};

const OF_WHAT_IS_WATERED: Record<string, () => string> = {
  "hydrozones.name": () => t("What people call the planting."),
  "hydrozones.planting": () => t("What grows there."),
  "hydrozones.soil": () => t("The soil’s texture."),
  "hydrozones.slope_pct": () => t("Rise over run, in percent."),
  "hydrozones.exposure": () => t("How much sun it gets."),
  "stations.number": () => t("What the crew calls it; no two stations of a site share one."),
  "stations.name": () => t("Where it is or what it waters."),
  "stations.part": () => t("The part of the grounds it lies in."),
  "stations.supply": () => t("The supply it hangs on."),
  "stations.controller": () => t("The cabinet that powers its valve."),
  "stations.hydrozone": () => t("The planting it waters."),
  "stations.flow_lpm": () => t("The flow while it is open."),
  "stations.current_ma": () => t("The current its valve draws while open."),
  "stations.area_m2": () => t("The area it waters."),
  "stations.pressure_kpa": () => t("The pressure its heads want."),
  "stations.heads": () => t("What kind of heads it has."),
  "stations.latitude_deg": () =>
    t("Degrees, north positive, of its valve or its heads. Walks take a short path by it."),
  "stations.longitude_deg": () => t("Degrees, east positive, of its valve or its heads."),
  "apart.station": () => t("The first of the two."),
  "apart.other": () => t("The one it is never open with."),
  "apart.reason": () => t("Why they stay apart."),
};

const OF_WHEN: Record<string, () => string> = {
  "programs.name": () => t("What people call the program."),
  "programs.letter": () => t("Its short name in lists and on the night picture: one or two characters."),
  "programs.start": () => t("Nothing of it runs earlier. Empty: as soon as a water window opens."),
  "programs.finish_by": () => t("When the program has to be over."),
  "programs.aim": () => t("Its own aim, where it is not the site’s."),
  "programs.rank": () => t("Where not all fits, 1 is served first and 9 last."),
  "programs.order": () => t("Whether stations go in any order that fits best, or in the listed one."),
  "programs.limit_lpm": () => t("The most the program may draw at once. Empty: no limit of its own."),
  "programs.max_open": () => t("How many of its stations may be open at once."),
  "programs.seasonal_pct": () => t("Its run times are multiplied by this, besides the site’s percentage."),
  "turns.program": () => t("The program it belongs to."),
  "turns.station": () => t("The station that runs."),
  "turns.position": () => t("The lowest comes first."),
  "turns.run_s": () => t("How long the station runs, all cycles together."),
  "turns.cycles": () => t("Into how many equal parts the time is split."),
  "turns.soak_s": () => t("The least rest between two cycles."),
  "turns.rank": () => t("Its own rank, where it is not the program’s."),
  "windows.name": () => t("What people call the window. It may be left empty."),
  "windows.opens": () => t("When watering may begin. The days are those on which it opens."),
  "windows.closes": () => t("When watering has to be over; at or before the opening it is on the next day."),
  "closures.name": () => t("What people call the closure."),
  "closures.cause": () => t("Why water is closed."),
  "closures.starts": () => t("When it starts on each of its days."),
  "closures.ends": () => t("When it ends; at or before the start it is on the next day."),
  "closures.starts_on": () => t("From this date and time on the site’s clock."),
  "closures.ends_on": () => t("Until this date and time on the site’s clock."),
  "asked.night": () => t("The night it is for: the date on which that night begins at noon."),
  "asked.program": () => t("The program asked for."),
  "asked.station": () => t("The station asked for."),
  "asked.run_s": () => t("How long the station runs."),
  "asked.at": () => t("When it should start. Empty: as soon as there is water."),
  "asked.by": () => t("Who asked."),
};

const HELPS: Record<string, () => string> = {
  ...SHARED,
  ...OF_WHAT_CARRIES,
  ...OF_WHAT_IS_WATERED,
  ...OF_WHEN,
  ...NEED_HELPS,
  ...REPAIR_HELPS,
};
