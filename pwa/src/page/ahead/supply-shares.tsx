/** How much each supply gives in a night, and how near it comes to its limit. */

import { sum } from "../night/moments";
import { t } from "../words/catalogue";
import { flow, volume } from "../words/units";
import type { AheadNight } from "./almanac";
import type { Outlook } from "./outlook";
import { moments, peakOf } from "./silhouette";
import { ShadeChip } from "./supply-key";

export function SupplyShares({ night, outlook }: { night: AheadNight; outlook: Outlook }) {
  return (
    <section>
      <h2>{t("By supply")}</h2>
      <ul class="supply-shares">
        {outlook.groups.map((group, index) => {
          const runs = night.sheet.runs.filter((run) => group.supplies.has(run.supply));
          const peak = peakOf(moments(night.sheet, runs, [group]));
          return (
            <li key={group.supply}>
              <ShadeChip group={index} />
              <bdi>{group.name}</bdi>
              <b>{volume(sum(runs.map((run) => run.volume_l)))}</b>
              <span class="supply-peak">
                {group.limitLpm === null
                  ? t("at most {flow} at once", { flow: flow(peak) })
                  : t("at most {flow} of {limit}", { flow: flow(peak), limit: flow(group.limitLpm) })}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
