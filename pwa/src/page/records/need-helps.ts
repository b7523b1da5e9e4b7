/** A line of help for each field behind the water need. */

import { t } from "../words/catalogue";

const SITE_HELPS: Record<string, () => string> = {
  "site.reference": () => t("By which published form the reference evapotranspiration is worked out."),
  "site.near_sea": () => t("It tells how the sun is estimated where only temperatures are known."),
  "site.rain_counts": () => t("All of it, none below a fifth of the reference, or by the event."),
  "site.currency": () => t("Three letters, as EUR."),
  "site.standing_charge": () => t("What the water costs a month before any flows."),
  "site.allowance_pct": () =>
    t("The share of the reference that the ordinance here allows. Local law stands above it."),
  "stations.evenness_pct": () => t("Lower-quarter uniformity, where no audit tells it."),
  "programs.seasonal_least_pct": () => t("No suggestion goes below it."),
  "programs.seasonal_most_pct": () => t("No suggestion goes above it."),
  "programs.seasonal_by_itself_pct": () =>
    t("Suggestions up to so much off need no person; 0: each is taken by a person."),
  "turns.mode": () => t("Set by hand, or worked out from what the hydrozone needs."),
};

const HYDROZONES_HELPS: Record<string, () => string> = {
  "hydrozones.plant_kind": () => t("For published starting values (FAO-56). What the site knows itself goes first."),
  "hydrozones.kc_initial": () => t("At the start of the season: what the planting uses of the reference."),
  "hydrozones.kc_middle": () => t("In mid-season, or of the whole year: what the planting uses of the reference."),
  "hydrozones.kc_end": () => t("At the end of the season."),
  "hydrozones.kc_rest": () => t("In the months outside the season."),
  "hydrozones.grows_from": () => t("First day of the season. Needs the length of at least one stage."),
  "hydrozones.initial_days": () => t("From the first day until growth begins."),
  "hydrozones.growth_days": () => t("While the planting closes."),
  "hydrozones.middle_days": () => t("While it stands full."),
  "hydrozones.late_days": () => t("While it ripens or fades."),
  "hydrozones.species_factor": () =>
    t("How thirsty the species are. Where it is given, it goes before crop coefficients."),
  "hydrozones.density_factor": () => t("How dense the planting is; 1 is the usual."),
  "hydrozones.microclimate_factor": () => t("How hot and windy the place is; 1 is the usual."),
  "hydrozones.roots_m": () => t("How deep its roots go."),
  "hydrozones.depletion_pct": () => t("Share of the soil’s water that plants take without suffering."),
  "hydrozones.held_mm": () => t("What a metre of its soil gives to plants. Empty: by the soil’s texture."),
  "hydrozones.intake_mm": () => t("What its soil takes in in an hour. Empty: by texture and slope."),
  "hydrozones.storage_mm": () => t("How much may stand on the surface before it runs off."),
  "hydrozones.watering": () => t("When the soil asks for it, or on every night of its programs."),
  "hydrozones.trigger_pct": () => t("Share of the easily taken water that may be used before it is watered."),
  "hydrozones.leave_mm": () => t("Not filled up, so that rain finds room."),
  "hydrozones.least_mm": () => t("Less is not worth opening a valve for."),
  "hydrozones.most_mm": () => t("More than this waits for another night."),
  "hydrozones.priority": () => t("In a drought, 1 is served best and 9 last."),
};

const WEATHER_HELPS: Record<string, () => string> = {
  "weather.day": () => t("The day, on the site’s calendar."),
  "weather.kind": () => t("What was observed takes the place of a forecast."),
  "weather.source": () => t("Who or what measured it."),
  "weather.high_degc": () => t("The day’s highest air temperature."),
  "weather.low_degc": () => t("The day’s lowest air temperature."),
  "weather.dew_degc": () => t("The day’s mean dew point."),
  "weather.dampest_pct": () => t("The day’s highest relative humidity."),
  "weather.driest_pct": () => t("The day’s lowest relative humidity."),
  "weather.humidity_pct": () => t("The day’s mean relative humidity."),
  "weather.wind_mps": () => t("The day’s mean wind speed."),
  "weather.wind_height_m": () => t("How high above the ground the wind is measured."),
  "weather.solar_mj": () => t("The day’s sun on a square metre."),
  "weather.sunshine_h": () => t("Hours of bright sunshine, where radiation is not measured."),
  "weather.rain_mm": () => t("The day’s rain. Empty: not read; 0: dry."),
  "weather.et_mm": () => t("Where somebody else has worked it out already."),
  "normals.month": () => t("1 to 12."),
  "normals.et_mm": () => t("Mean of a day in this month, for days on which nothing was observed."),
  "normals.rain_mm": () => t("Mean rain of the whole month."),
  "normals.source": () => t("Where the figures are from."),
  "soil_water.hydrozone": () => t("The hydrozone it speaks of."),
  "soil_water.day": () => t("The day at whose start it holds."),
  "soil_water.depletion_mm": () => t("What is missing until the soil is full."),
  "soil_water.how": () => t("Measured, worked out, or guessed."),
};

const WATER_HELPS: Record<string, () => string> = {
  "audits.name": () => t("What people call it."),
  "audits.station": () => t("The station whose water was caught."),
  "audits.day": () => t("The day it was done."),
  "audits.run_s": () => t("How long the water ran."),
  "audits.caught_in": () => t("Depths, or millilitres of cans with a known opening."),
  "audits.opening_cm2": () => t("The area of a can’s opening, in square centimetres."),
  "audits.spacing_m": () => t("The distance from one can to the next."),
  "cans.audit": () => t("The audit it belongs to."),
  "cans.column": () => t("Its place along the grid, counted from 0 in one corner."),
  "cans.row": () => t("Its place across the grid, counted from 0 in the same corner."),
  "cans.catch": () => t("What it caught. Empty: not read."),
  "droughts.starts": () => t("The first night on which it holds."),
  "droughts.ends": () => t("The last night. Empty: until further notice."),
  "droughts.priority": () => t("The priority of hydrozones it speaks of."),
  "droughts.share_pct": () => t("How much of its need it gets."),
  "tiers.up_to_l": () => t("The step’s end. Empty: the last step, without end."),
  "tiers.price": () => t("What a cubic metre costs in this step."),
};

export const NEED_HELPS: Record<string, () => string> = {
  ...SITE_HELPS,
  ...HYDROZONES_HELPS,
  ...WEATHER_HELPS,
  ...WATER_HELPS,
};
