/** Which groups of fields stand together on a record's page, in the order in which the trade asks for them. */

import { t } from "../words/catalogue";
import type { Table } from "./fields";

export interface Section {
  title: () => string;
  groups: string[];
}

type Layouts = Partial<Record<Table, Section[]>>;

const notes: Section = { title: () => t("Notes"), groups: ["notes"] };

const GROUNDS: Layouts = {
  stations: [
    { title: () => t("What it is"), groups: ["number", "name", "part"] },
    { title: () => t("What it hangs on"), groups: ["supply", "controller", "hydrozone"] },
    { title: () => t("Water"), groups: ["flow_lpm", "pressure_kpa", "area_m2", "heads", "evenness_pct"] },
    { title: () => t("Electricity"), groups: ["current_ma"] },
    { title: () => t("Where it lies"), groups: ["latitude_deg", "longitude_deg"] },
    notes,
  ],
  supplies: [
    { title: () => t("What it is"), groups: ["name", "fed_by", "water"] },
    { title: () => t("What it can give"), groups: ["limit_lpm", "steady_lpm", "least_lpm", "lead_s"] },
    { title: () => t("Its meter"), groups: ["counter_l", "watch_silent_s"] },
    { title: () => t("When it raises an alarm"), groups: ["watch_least_lpm", "watch_share_pct", "watch_hold_s"] },
    { title: () => t("When it is shut by itself"), groups: ["shut_above_lpm", "shut_after_s"] },
    notes,
  ],
  controllers: [
    { title: () => t("What it is"), groups: ["name"] },
    { title: () => t("What it can hold open"), groups: ["max_open", "max_current_ma", "valve_gap_s"] },
    notes,
  ],
  apart: [{ title: () => t("Never open together"), groups: ["station", "other", "reason"] }],
  hydrozones: [
    { title: () => t("What grows there"), groups: ["name", "planting"] },
    { title: () => t("Ground and sun"), groups: ["soil", "slope_pct", "exposure"] },
    {
      title: () => t("How thirsty it is"),
      groups: ["plant_kind", "kc_middle", "species_factor", "density_factor", "microclimate_factor"],
    },
    {
      title: () => t("Its season"),
      groups: [
        "grows_from",
        "initial_days",
        "growth_days",
        "middle_days",
        "late_days",
        "kc_initial",
        "kc_end",
        "kc_rest",
      ],
    },
    { title: () => t("Roots and soil"), groups: ["roots_m", "depletion_pct", "held_mm", "intake_mm", "storage_mm"] },
    {
      title: () => t("How it is watered"),
      groups: ["watering", "trigger_pct", "leave_mm", "least_mm", "most_mm", "priority"],
    },
    notes,
  ],
};

const TIMES: Layouts = {
  site: [
    { title: () => t("What it is"), groups: ["name"] },
    { title: () => t("What nights aim for"), groups: ["seasonal_pct", "aim", "finish_by"] },
    { title: () => t("After an interruption"), groups: ["catch_up_by_itself"] },
    { title: () => t("Clock"), groups: ["clock"] },
    { title: () => t("Place"), groups: ["latitude_deg", "longitude_deg", "elevation_m", "near_sea"] },
    { title: () => t("Weather and need"), groups: ["reference", "rain_counts"] },
    { title: () => t("What water costs"), groups: ["currency", "standing_charge", "allowance_pct"] },
    notes,
  ],
  programs: [
    { title: () => t("What it is"), groups: ["name", "letter"] },
    { title: () => t("When"), groups: ["days", "start", "finish_by", "aim"] },
    { title: () => t("How"), groups: ["order", "rank", "seasonal_pct"] },
    { title: () => t("Limits of its own"), groups: ["limit_lpm", "max_open"] },
    {
      title: () => t("Suggested percentages"),
      groups: ["seasonal_least_pct", "seasonal_most_pct", "seasonal_by_itself_pct"],
    },
    notes,
  ],
  windows: [
    { title: () => t("Hours"), groups: ["hours"] },
    { title: () => t("On which dates it opens"), groups: ["days"] },
    { title: () => t("For what"), groups: ["scope"] },
    { title: () => t("What it is called"), groups: ["name"] },
  ],
  closures: [
    { title: () => t("What it is"), groups: ["name", "cause"] },
    { title: () => t("When"), groups: ["span"] },
    { title: () => t("For what"), groups: ["scope"] },
  ],
  weather: [
    { title: () => t("Which day"), groups: ["day", "kind", "source"] },
    { title: () => t("Temperature"), groups: ["high_degc", "low_degc"] },
    { title: () => t("Rain"), groups: ["rain_mm"] },
    { title: () => t("Dampness"), groups: ["dew_degc", "dampest_pct", "driest_pct", "humidity_pct"] },
    { title: () => t("Sun and wind"), groups: ["solar_mj", "sunshine_h", "wind_mps", "wind_height_m"] },
    { title: () => t("Worked out elsewhere"), groups: ["et_mm"] },
  ],
};

const NEED: Layouts = {
  normals: [{ title: () => t("What it is"), groups: ["month", "et_mm", "rain_mm", "source"] }],
  soil_water: [{ title: () => t("Water in the soil"), groups: ["hydrozone", "day", "depletion_mm", "how"] }],
  audits: [
    { title: () => t("What it is"), groups: ["name", "station", "day"] },
    { title: () => t("Water"), groups: ["run_s", "caught_in", "opening_cm2", "spacing_m"] },
    notes,
  ],
  cans: [{ title: () => t("What it is"), groups: ["audit", "column", "row", "catch"] }],
  droughts: [
    { title: () => t("When"), groups: ["starts", "ends"] },
    { title: () => t("For what"), groups: ["priority", "share_pct"] },
  ],
  tiers: [{ title: () => t("What water costs"), groups: ["up_to_l", "price"] }],
};

export const LAYOUTS: Layouts = { ...GROUNDS, ...TIMES, ...NEED };
