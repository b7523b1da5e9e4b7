/** The words that choices behind the water need offer. */

import { t } from "../words/catalogue";

export const NEED_WORDS: Record<string, () => string> = {
  "reference.fao56": () => t("FAO-56 Penman-Monteith"),
  "reference.asce_short": () => t("ASCE, short reference"),
  "reference.asce_tall": () => t("ASCE, tall reference"),
  "near_sea.inland": () => t("Inland"),
  "near_sea.coast": () => t("By the sea"),
  "rain_counts.all": () => t("All of it"),
  "rain_counts.not_small": () => t("Not below a fifth of the reference"),
  "rain_counts.events": () => t("By the event"),
  "plant_kind.turf_cool_season": () => t("Cool-season turf"),
  "plant_kind.turf_warm_season": () => t("Warm-season turf"),
  "plant_kind.rye_grass_hay": () => t("Rye grass hay"),
  "plant_kind.bermuda_hay": () => t("Bermuda hay"),
  "plant_kind.grazing_pasture": () => t("Grazing pasture"),
  "plant_kind.palm_trees": () => t("Palm trees"),
  "plant_kind.conifer_trees": () => t("Conifers"),
  "plant_kind.berries_bushes": () => t("Berry bushes"),
  "plant_kind.olives": () => t("Olive trees"),
  "watering.deficit": () => t("When the soil asks for it"),
  "watering.days": () => t("On every night of its programs"),
  "mode.hand": () => t("Set by hand"),
  "mode.need": () => t("Worked out from the need"),
  "kind.observed": () => t("Observed"),
  "kind.forecast": () => t("Forecast"),
  "how.worked_out": () => t("Worked out"),
  "how.measured": () => t("Measured"),
  "how.guessed": () => t("Guessed"),
  "caught_in.mm": () => t("Depths"),
  "caught_in.ml": () => t("Millilitres"),
};
