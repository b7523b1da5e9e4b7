/** What each fault cost in water and money. */

import type { Used, UsedFault } from "../line/api";
import { t } from "../words/catalogue";
import { money } from "../words/money";
import { volume } from "../words/units";

const FIRST = 20;

export function Faults({ used }: { used: Used }) {
  const { faults, currency } = used;
  if (faults.length === 0) return null;
  const [first, others] = [faults.slice(0, FIRST), faults.slice(FIRST)];
  return (
    <section aria-labelledby="used-faults">
      <div class="list-head">
        <h2 id="used-faults">{t("What faults cost, about")}</h2>
      </div>
      <ul>
        {first.map((fault) => (
          <Fault key={fault.alarm} fault={fault} currency={currency} />
        ))}
      </ul>
      {others.length > 0 ? (
        <details class="as-table">
          <summary>{t("Earlier ones")}</summary>
          <ul>
            {others.map((fault) => (
              <Fault key={fault.alarm} fault={fault} currency={currency} />
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

function Fault({ fault, currency }: { fault: UsedFault; currency: string | null }) {
  return (
    <li class="used-row">
      <span>
        <span class="used-name">{fault.said.detail}</span>
        {fault.until === null ? <span class="used-under">{t("It is not over.")}</span> : null}
      </span>
      <b>
        {fault.escaped_l > 0
          ? t("{volume} escaped", { volume: volume(fault.escaped_l) })
          : t("{volume} kept from plants", { volume: volume(fault.kept_l) })}
        {fault.cost !== null ? <span class="used-under">{money(fault.cost, currency)}</span> : null}
      </b>
    </li>
  );
}
