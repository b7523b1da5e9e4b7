/** What matters of each table, in one line: what an overview says beside the count. */

import { nights, tonightDate } from "../night/nights";
import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";
import { listed, sideBySide } from "../words/lists";
import { clockField } from "../words/moments";
import { records } from "./desk";
import type { Table } from "./fields";
import { hoursWords } from "./record-words";
import { numberOf, textOf } from "./records";
import { scopesOf } from "./scope";

/** In the trade's order: when water runs, then what it reaches, then what carries it. */
export const SHOWN: readonly Table[] = [
  "programs",
  "windows",
  "closures",
  "hydrozones",
  "stations",
  "supplies",
  "controllers",
  "apart",
  "weather",
  "normals",
  "soil_water",
  "audits",
  "cans",
  "droughts",
  "tiers",
  "site",
];

const OF_STATIONS: readonly Table[] = ["hydrozones", "stations", "controllers"];

/** Nothing where there is nothing to tell of. */
export function lineOf(table: Table): string {
  const about = OF_STATIONS.includes(table) ? "stations" : table;
  return records.value.of(about).length > 0 ? (LINES[table]?.() ?? "") : "";
}

const LINES: Partial<Record<Table, () => string>> = {
  programs: () => {
    const due = new Set(
      tonight()
        ?.runs.map((run) => run.program)
        .filter(Boolean),
    ).size;
    return tonight() ? tn("{count} waters tonight", "{count} water tonight", due) : "";
  },
  windows: () => {
    const whole = records.value.of("windows").filter((window) => scopesOf(window).length === 0);
    const spans = whole.map((window) => hoursWords(window, "opens", "closes"));
    return spans.length ? t("Whole site {hours}", { hours: listed(spans) }) : "";
  },
  closures: () => {
    const now = new Set(
      tonight()
        ?.closed.map((span) => span.closure)
        .filter(Boolean),
    ).size;
    return now ? tn("{count} holds tonight", "{count} hold tonight", now) : t("None holds tonight");
  },
  hydrozones: () => {
    const none = records.value.of("stations").filter((station) => !textOf(station, "hydrozone")).length;
    return none
      ? tn("{count} station without a hydrozone", "{count} stations without a hydrozone", none)
      : t("Every station has a hydrozone");
  },
  stations: () => {
    const due = new Set(records.value.of("turns").map((turn) => turn.station));
    const none = records.value.of("stations").filter((station) => !due.has(station.id)).length;
    return none ? tn("{count} without a turn", "{count} without a turn", none) : t("Every station has a turn");
  },
  supplies: () => {
    const mains = records.value.of("supplies").filter((supply) => textOf(supply, "fed_by")).length;
    const sources = records.value.of("supplies").length - mains;
    return listed([tn("{count} source", "{count} sources", sources), tn("{count} main", "{count} mains", mains)]);
  },
  controllers: () => {
    const none = records.value.of("stations").filter((station) => !textOf(station, "controller")).length;
    return none
      ? tn("{count} station without a controller", "{count} stations without a controller", none)
      : t("Every station has a controller");
  },
  site: () => {
    const { site } = records.value;
    const pct = t("{figure} %", { figure: figure(numberOf(site, "seasonal_pct") ?? 100, 0) });
    const finish = textOf(site, "finish_by");
    const zone = textOf(site, "zone") || textOf(site, "zone_rule");
    return sideBySide([zone, pct, finish ? t("finish by {time}", { time: clockField(finish) }) : ""]);
  },
};

function tonight() {
  return nights.value.get(tonightDate.value)?.sheet;
}
