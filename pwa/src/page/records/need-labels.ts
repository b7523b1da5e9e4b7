/** What the fields behind the water need are called on screen. */

import { t } from "../words/catalogue";

const SITE_LABELS: Record<string, () => string> = {
  day: () => t("Day"),
  source: () => t("Source"),
  rain_mm: () => t("Rain"),
  et_mm: () => t("Reference evapotranspiration"),
  "site.reference": () => t("Form of the reference"),
  "site.near_sea": () => t("Inland or by the sea"),
  "site.rain_counts": () => t("How rain counts"),
  "site.currency": () => t("Currency"),
  "site.standing_charge": () => t("Standing charge of a month"),
  "site.allowance_pct": () => t("Allowance of the reference"),
  "stations.evenness_pct": () => t("Evenness of its heads"),
  "programs.seasonal_least_pct": () => t("Seasonal percentage at least"),
  "programs.seasonal_most_pct": () => t("Seasonal percentage at most"),
  "programs.seasonal_by_itself_pct": () => t("Changes by itself up to"),
  "turns.mode": () => t("Run time comes from"),
};

const HYDROZONES_LABELS: Record<string, () => string> = {
  "hydrozones.plant_kind": () => t("Kind of planting"),
  "hydrozones.kc_initial": () => t("Crop coefficient at the start"),
  "hydrozones.kc_middle": () => t("Crop coefficient"),
  "hydrozones.kc_end": () => t("Crop coefficient at the end"),
  "hydrozones.kc_rest": () => t("Crop coefficient outside the season"),
  "hydrozones.grows_from": () => t("Growing season from"),
  "hydrozones.initial_days": () => t("Days of the first stage"),
  "hydrozones.growth_days": () => t("Days of growth"),
  "hydrozones.middle_days": () => t("Days of mid-season"),
  "hydrozones.late_days": () => t("Days of the late season"),
  "hydrozones.species_factor": () => t("Species factor"),
  "hydrozones.density_factor": () => t("Density factor"),
  "hydrozones.microclimate_factor": () => t("Microclimate factor"),
  "hydrozones.roots_m": () => t("Root depth"),
  "hydrozones.depletion_pct": () => t("Share taken with ease"),
  "hydrozones.held_mm": () => t("Water held in a metre"),
  "hydrozones.intake_mm": () => t("Intake in an hour"),
  "hydrozones.storage_mm": () => t("Water that may stand"),
  "hydrozones.watering": () => t("Watered when"),
  "hydrozones.trigger_pct": () => t("Watered at"),
  "hydrozones.leave_mm": () => t("Room left for rain"),
  "hydrozones.least_mm": () => t("Least depth"),
  "hydrozones.most_mm": () => t("Most depth in a night"),
  "hydrozones.priority": () => t("Priority in a drought"),
};

const WEATHER_LABELS: Record<string, () => string> = {
  "weather.kind": () => t("Observed or forecast"),
  "weather.high_degc": () => t("Highest temperature"),
  "weather.low_degc": () => t("Lowest temperature"),
  "weather.dew_degc": () => t("Dew point"),
  "weather.dampest_pct": () => t("Highest humidity"),
  "weather.driest_pct": () => t("Lowest humidity"),
  "weather.humidity_pct": () => t("Mean humidity"),
  "weather.wind_mps": () => t("Wind"),
  "weather.wind_height_m": () => t("Height of the wind gauge"),
  "weather.solar_mj": () => t("Solar radiation"),
  "weather.sunshine_h": () => t("Hours of sunshine"),
  "normals.month": () => t("Month"),
  "soil_water.depletion_mm": () => t("Water the soil lacks"),
  "soil_water.how": () => t("Known how"),
};

const WATER_LABELS: Record<string, () => string> = {
  "audits.run_s": () => t("Water ran for"),
  "audits.caught_in": () => t("Catches are read as"),
  "audits.opening_cm2": () => t("Opening of a can"),
  "audits.spacing_m": () => t("From can to can"),
  "cans.audit": () => t("Audit"),
  "cans.column": () => t("Along"),
  "cans.row": () => t("Across"),
  "cans.catch": () => t("Catch"),
  "droughts.starts": () => t("First night"),
  "droughts.ends": () => t("Last night"),
  "droughts.priority": () => t("Priority"),
  "droughts.share_pct": () => t("Share of its need"),
  "tiers.up_to_l": () => t("Up to, in a month"),
  "tiers.price": () => t("Price of a cubic metre"),
};

export const NEED_LABELS: Record<string, () => string> = {
  ...SITE_LABELS,
  ...HYDROZONES_LABELS,
  ...WEATHER_LABELS,
  ...WATER_LABELS,
};
