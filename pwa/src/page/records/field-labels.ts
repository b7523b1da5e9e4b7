/** What every field of the document is called on screen. `table.field` where tables differ, else the field alone. */

import { t } from "../words/catalogue";
import { NEED_LABELS } from "./need-labels";
import { REPAIR_LABELS } from "./repair-words";

export function fieldLabel(table: string, field: string): string {
  return (LABELS[`${table}.${field}`] ?? LABELS[field] ?? (() => field))();
}

const SHARED: Record<string, () => string> = {
  name: () => t("Name"),
  notes: () => t("Notes"),
  rank: () => t("Rank"),
  aim: () => t("Aim"),
  start: () => t("Start"),
  finish_by: () => t("Finish by"),
  seasonal_pct: () => t("Seasonal percentage"),
  limit_lpm: () => t("Flow limit"),
  max_open: () => t("Most open at once"),
  program: () => t("Program"),
  station: () => t("Station"),
  supply: () => t("Supply"),
  controller: () => t("Controller"),
  hydrozone: () => t("Hydrozone"),
  days: () => t("Days"),
  weekdays: () => t("Days of the week"),
  every_n_days: () => t("Every so many days"),
  every_from: () => t("Counted from"),
  dates: () => t("Dates"),
  season_from: () => t("Season from"),
  season_to: () => t("Season to"),
  span: () => t("Span"),
  hours: () => t("Hours"),
  run: () => t("Run time"),
  clock: () => t("Clock"),
};

const OF_WHAT_CARRIES: Record<string, () => string> = {
  "site.zone": () => t("Time zone"),
  "site.catch_up_by_itself": () => t("The rest of an interrupted night"),
  "site.zone_rule": () => t("Clock rule of the site’s own"),
  "site.zone_changes": () => t("Dated clock changes"),
  "site.latitude_deg": () => t("Latitude"),
  "site.longitude_deg": () => t("Longitude"),
  "site.elevation_m": () => t("Height above the sea"),
  "supplies.fed_by": () => t("Fed by"),
  "supplies.water": () => t("Water"),
  "supplies.steady_lpm": () => t("Steady flow"),
  "supplies.least_lpm": () => t("Least flow"),
  "supplies.lead_s": () => t("Lead time"),
  "supplies.counter_l": () => t("Meter begins again at"),
  "supplies.watch_least_lpm": () => t("Told of from"),
  "supplies.watch_share_pct": () => t("Told of from this share"),
  "supplies.watch_hold_s": () => t("Told of after"),
  "supplies.watch_silent_s": () => t("Meter is silent after"),
  "supplies.shut_above_lpm": () => t("Shut by itself above"),
  "supplies.shut_after_s": () => t("Shut by itself after"),
  "controllers.max_current_ma": () => t("Most current"),
  "controllers.valve_gap_s": () => t("Rest between valves"),
};

const OF_WHAT_IS_WATERED: Record<string, () => string> = {
  "hydrozones.planting": () => t("Planting"),
  "hydrozones.soil": () => t("Soil"),
  "hydrozones.slope_pct": () => t("Slope"),
  "hydrozones.exposure": () => t("Exposure"),
  "stations.number": () => t("Number"),
  "stations.part": () => t("Part of the grounds"),
  "stations.flow_lpm": () => t("Flow"),
  "stations.current_ma": () => t("Valve current"),
  "stations.area_m2": () => t("Area watered"),
  "stations.pressure_kpa": () => t("Pressure at the heads"),
  "stations.heads": () => t("Heads"),
  "stations.latitude_deg": () => t("Latitude"),
  "stations.longitude_deg": () => t("Longitude"),
  "apart.station": () => t("One station"),
  "apart.other": () => t("The other station"),
  "apart.reason": () => t("Reason"),
};

const OF_WHEN: Record<string, () => string> = {
  "programs.letter": () => t("Letter"),
  "programs.order": () => t("Order of stations"),
  "turns.position": () => t("Place in the order"),
  "turns.run_s": () => t("Run time"),
  "turns.cycles": () => t("Cycles"),
  "turns.soak_s": () => t("Soak between cycles"),
  "windows.opens": () => t("Opens"),
  "windows.closes": () => t("Closes"),
  "closures.cause": () => t("Cause"),
  "closures.starts": () => t("Starts"),
  "closures.ends": () => t("Ends"),
  "closures.starts_on": () => t("From"),
  "closures.ends_on": () => t("Until"),
  "asked.night": () => t("Night"),
  "asked.run_s": () => t("Run time"),
  "asked.at": () => t("Start"),
  "asked.by": () => t("Asked by"),
};

const LABELS: Record<string, () => string> = {
  ...SHARED,
  ...OF_WHAT_CARRIES,
  ...OF_WHAT_IS_WATERED,
  ...OF_WHEN,
  ...NEED_LABELS,
  ...REPAIR_LABELS,
};
