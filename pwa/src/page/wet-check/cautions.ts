/** The cautions at the start of a walk: about people, pressure and cabinets, and about reclaimed water where it runs. */

import { cautionsFor } from "../records/cautions";
import { records } from "../records/desk";
import { textOf } from "../records/records";
import { t } from "../words/catalogue";

export function walkCautions(stations: readonly string[]): string[] {
  const known = records.value;
  const supplies = new Set(stations.map((id) => textOf(known.get("stations", id), "supply")));
  const water = [...supplies].flatMap((id) => {
    const supply = known.get("supplies", id);
    return supply ? cautionsFor(supply, known) : [];
  });
  return [
    t(
      "Caution: a valve that opens wets whoever is near, and wet paths are slippery. Look first that nobody is where water will come, and keep people away while it runs.",
    ),
    ...new Set(water),
    ...cautionsFor({ table: "controllers", id: "" }, known),
    t(
      "Pengan opens no valve: open and close each station by the means your site has for it, and keep to local codes and your site’s rules.",
    ),
  ];
}
