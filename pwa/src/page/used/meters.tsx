/** What meters counted beside what came to the stations below them: the rest went nowhere that anybody knows of. */

import type { Used, UsedMeter } from "../line/api";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import { momentWords } from "./words";

export function Meters({ used, document }: { used: Used; document: SiteDocument }) {
  const meters = [...used.meters].sort((one, other) => other.unaccounted_l - one.unaccounted_l);
  return (
    <section aria-labelledby="used-meters">
      <div class="list-head">
        <h2 id="used-meters">{t("Against the meters")}</h2>
      </div>
      {meters.length === 0 ? (
        <p class="used-note">{t("No meter was read twice, so nothing can be said of water that went elsewhere.")}</p>
      ) : null}
      {meters.length > 1 ? (
        <p class="used-note">{t("A meter counts what goes through the meters below it too.")}</p>
      ) : null}
      <ul>
        {meters.map((meter) => (
          <Meter key={meter.supply} meter={meter} name={document.nameOf("supply", meter.supply)} />
        ))}
      </ul>
    </section>
  );
}

function Meter({ meter, name }: { meter: UsedMeter; name: string }) {
  const words = { counted: volume(meter.counted_l), came: volume(meter.came_l) };
  return (
    <li class="used-row used-meter" data-supply={meter.supply}>
      <span>
        <bdi class="used-name">{name}</bdi>
        <span class="used-under">{t("{counted} counted, {came} came to the stations", words)}</span>
        <span class="used-under">
          {t("From {starts} to {ends}", {
            starts: momentWords(meter.starts_local),
            ends: momentWords(meter.ends_local),
          })}
        </span>
        {meter.said.map((one) => (
          <span key={one.detail} class="used-under used-odd">
            {one.detail}
          </span>
        ))}
      </span>
      <b>{unaccounted(meter.unaccounted_l)}</b>
    </li>
  );
}

function unaccounted(litres: number): string {
  if (litres < 0) return t("{volume} less than the stations took", { volume: volume(-litres) });
  return t("{volume} unaccounted for", { volume: volume(litres) });
}
