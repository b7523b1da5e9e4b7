/** What the tables are called, one record of each, and what each is for. */

import { t, tn } from "../words/catalogue";
import type { Table } from "./fields";

export function tableTitle(table: Table): string {
  const titles: Record<Table, () => string> = {
    programs: () => t("Programs"),
    windows: () => t("Water windows"),
    closures: () => t("Closures"),
    hydrozones: () => t("Hydrozones"),
    stations: () => t("Stations"),
    supplies: () => t("Supplies"),
    controllers: () => t("Controllers"),
    apart: () => t("Stations kept apart"),
    site: () => t("Site"),
    turns: () => t("Turns"),
    asked: () => t("Extra runs asked for"),
    weather: () => t("Weather"),
    normals: () => t("Monthly normals"),
    soil_water: () => t("Water in the soil"),
    audits: () => t("Catch-can audits"),
    cans: () => t("Cans"),
    droughts: () => t("Drought rules"),
    tiers: () => t("Price steps"),
    repairs: () => t("Repairs"),
  };
  return titles[table]();
}

export function tableAbout(table: Table): string {
  const abouts: Record<Table, () => string> = {
    programs: () => t("Stations watered on the same days from the same start."),
    windows: () => t("Hours in which watering may happen. Windows of one scope add up."),
    closures: () => t("Spans in which watering may not happen: a water authority’s rule, an event, mowing."),
    hydrozones: () => t("Plants with one water need; soil, slope and exposure."),
    stations: () => t("One valve and the heads it feeds."),
    supplies: () => t("Sources and the mains they feed, each with what it can give."),
    controllers: () => t("Cabinets that power the valves, and how many they can hold open."),
    apart: () => t("Pairs of stations that are never open together."),
    site: () => t("Name, clock, place, and what nights aim for."),
    turns: () => t("A station’s share in a program: its run time."),
    asked: () => t("Runs asked for on one night only."),
    weather: () => t("Each day’s weather. Turns by need follow it."),
    normals: () => t("Each month’s usual evapotranspiration and rain, for days nobody observed."),
    soil_water: () => t("How much water each hydrozone’s soil lacked on a day: there its balance begins."),
    audits: () => t("Cans set out over a station tell how fast and how evenly it wets the ground."),
    cans: () => t("One can of an audit, and what it caught."),
    droughts: () => t("How much of its need each priority gets while a drought lasts."),
    tiers: () => t("What a cubic metre costs, step by step."),
    repairs: () => t("What is to be mended, who sees to it, and how far they are."),
  };
  return abouts[table]();
}

/** The head of a page on which a record is made. */
export function newTitle(table: Table): string {
  const titles: Record<Table, () => string> = {
    programs: () => t("New program"),
    windows: () => t("New water window"),
    closures: () => t("New closure"),
    hydrozones: () => t("New hydrozone"),
    stations: () => t("New station"),
    supplies: () => t("New supply"),
    controllers: () => t("New controller"),
    apart: () => t("New pair kept apart"),
    site: () => t("Site"),
    turns: () => t("New turn"),
    asked: () => t("New extra run"),
    weather: () => t("New day of weather"),
    normals: () => t("New monthly normal"),
    soil_water: () => t("New state of the soil"),
    audits: () => t("New audit"),
    cans: () => t("New can"),
    droughts: () => t("New drought rule"),
    tiers: () => t("New price step"),
    repairs: () => t("New repair"),
  };
  return titles[table]();
}

export function addLabel(table: Table): string {
  const labels: Record<Table, () => string> = {
    programs: () => t("Add a program"),
    windows: () => t("Add a water window"),
    closures: () => t("Add a closure"),
    hydrozones: () => t("Add a hydrozone"),
    stations: () => t("Add a station"),
    supplies: () => t("Add a supply"),
    controllers: () => t("Add a controller"),
    apart: () => t("Keep two stations apart"),
    site: () => t("Site"),
    turns: () => t("Add a turn"),
    asked: () => t("Ask for an extra run"),
    weather: () => t("Add a day"),
    normals: () => t("Add a month"),
    soil_water: () => t("Say how dry a soil is"),
    audits: () => t("Add an audit"),
    cans: () => t("Add a can"),
    droughts: () => t("Add a drought rule"),
    tiers: () => t("Add a price step"),
    repairs: () => t("Add a repair"),
  };
  return labels[table]();
}

export function noneYet(table: Table): string {
  const lines: Record<Table, () => string> = {
    programs: () => t("No program yet. A program says which stations are watered on which days."),
    windows: () => t("No water window yet. Watering may happen at any hour."),
    closures: () => t("No closure. Watering is held back by nothing but the windows."),
    hydrozones: () => t("No hydrozone yet. Hydrozones gather plants with one water need."),
    stations: () => t("No station yet. Add a supply first, then the stations that hang on it."),
    supplies: () => t("No supply yet. Begin with the source the water comes from."),
    controllers: () => t("No controller yet. Without one, only supplies limit how many valves are open."),
    apart: () => t("No stations are kept apart."),
    site: () => t("No site is on this phone yet."),
    turns: () => t("No station has a turn in this program yet."),
    asked: () => t("No extra run is asked for."),
    weather: () => t("No weather yet. Type a day in, or bring a table of days in with the books."),
    normals: () => t("No normals yet. They stand in for days that nobody observed."),
    soil_water: () => t("Nobody has said how dry any soil is. Balances begin with full soils."),
    audits: () => t("No audit yet. Rates come from flow and area, and evenness is assumed."),
    cans: () => t("No can yet."),
    droughts: () => t("No drought rule. Every hydrozone gets all it needs."),
    tiers: () => t("No price steps yet."),
    repairs: () => t("Nothing is to be mended."),
  };
  return lines[table]();
}

export function countOf(table: Table, count: number): string {
  const counts: Record<Table, () => string> = {
    programs: () => tn("{count} program", "{count} programs", count),
    windows: () => tn("{count} water window", "{count} water windows", count),
    closures: () => tn("{count} closure", "{count} closures", count),
    hydrozones: () => tn("{count} hydrozone", "{count} hydrozones", count),
    stations: () => tn("{count} station", "{count} stations", count),
    supplies: () => tn("{count} supply", "{count} supplies", count),
    controllers: () => tn("{count} controller", "{count} controllers", count),
    apart: () => tn("{count} pair kept apart", "{count} pairs kept apart", count),
    site: () => tn("{count} site", "{count} sites", count),
    turns: () => tn("{count} turn", "{count} turns", count),
    asked: () => tn("{count} extra run", "{count} extra runs", count),
    weather: () => tn("{count} day", "{count} days", count),
    normals: () => tn("{count} month", "{count} months", count),
    soil_water: () => tn("{count} state of a soil", "{count} states of soils", count),
    audits: () => tn("{count} audit", "{count} audits", count),
    cans: () => tn("{count} can", "{count} cans", count),
    droughts: () => tn("{count} drought rule", "{count} drought rules", count),
    tiers: () => tn("{count} price step", "{count} price steps", count),
    repairs: () => tn("{count} repair", "{count} repairs", count),
  };
  return counts[table]();
}
