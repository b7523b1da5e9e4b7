/** The year in one figure, what it is made of, and how much of that is known. */

import type { Used } from "../line/api";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import { nightsWords } from "./words";

export function Headline({ used }: { used: Used }) {
  const { total, unaccounted_l } = used;
  const delivered = total.delivered_l === null ? t("not known") : volume(total.delivered_l);
  return (
    <section class="used-slab" aria-label={t("The year so far")}>
      <p class="used-came">{volume(total.came_l)}</p>
      <p class="used-of">{t("came to the stations, as far as it is known")}</p>
      <dl class="used-figures">
        <Figure name={t("Planned")} value={volume(total.planned_l)} />
        <Figure name={t("Delivered")} value={delivered} />
        {total.assumed_l > 0 ? <Figure name={t("Assumed")} value={volume(total.assumed_l)} /> : null}
        <Figure name={t("Lost")} value={volume(total.lost_l)} />
        {total.beyond_l > 0 ? <Figure name={t("Beyond the plan")} value={volume(total.beyond_l)} /> : null}
        {unaccounted_l !== null ? (
          <Figure name={t("Unaccounted for, by the meters")} value={volume(unaccounted_l)} />
        ) : null}
        {total.before_l !== null ? <Figure name={t("A year before")} value={volume(total.before_l)} /> : null}
        {total.allowed_l !== null ? (
          <Figure name={t("Budget of these months")} value={volume(total.allowed_l)} />
        ) : null}
      </dl>
      <p class="used-known">{nightsWords(used)}</p>
    </section>
  );
}

function Figure({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}
