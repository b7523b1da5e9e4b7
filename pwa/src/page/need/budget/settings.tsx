/**
 * What the budget is worked out from, each leading to where it is changed; and the table to take along. The published
 * shares and their sources stand in `engine/need/allowance.py`.
 */

import { numberOf } from "../../records/records";
import { countOf } from "../../records/table-words";
import type { SiteDocument } from "../../site/document";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { tableOf } from "./asking";
import { yearName } from "./words";

interface SettingsProps {
  document: SiteDocument;
  year: number;
  /** The server knows of nothing to show: something of this is missing. */
  empty: boolean;
}

export function Settings({ document, year, empty }: SettingsProps) {
  const share = numberOf(document.all("site")[0], "allowance_pct");
  return (
    <section aria-labelledby="budget-settings">
      <div class="list-head">
        <h2 id="budget-settings">{t("What it follows from")}</h2>
      </div>
      {empty ? (
        <p class="need-note" role="status">
          {t("There is nothing to show: a budget takes monthly normals, and stations with an area and a hydrozone.")}
        </p>
      ) : null}
      <p class="need-note">
        {t(
          "Allowed is the month’s reference evapotranspiration by its normal, times the share that the ordinance here allows, times the area of the stations. Planned is what plants need of it beyond usual rain, made longer for uneven heads. Used is what the nights that are over brought, as far as their valves told it, else as their sheets have it.",
        )}
      </p>
      <p class="need-note">
        {t(
          "Shares that are published: California’s model ordinance of 2015 has 55 % for homes, 45 % for others and 80 % for landscapes that were there before; US EPA WaterSense has 70 %. Whether one binds this site is for its own authority to say.",
        )}
      </p>
      <Way
        name={t("Allowance, currency, standing charge")}
        now={share === null ? t("No share is stated") : t("{figure} %", { figure: figure(share, 1) })}
        onGo={() => go("site", "site")}
      />
      <Way
        name={t("Price steps")}
        now={countOf("tiers", document.all("tiers").length)}
        onGo={() => go("site", "tiers")}
      />
      <Way
        name={t("Monthly normals")}
        now={countOf("normals", document.all("normals").length)}
        onGo={() => go("site", "normals")}
      />
      <a class="button budget-file" href={tableOf(String(year))} download={`${year}.csv`}>
        {t("{year} as a table (CSV)", { year: yearName(year) })}
      </a>
    </section>
  );
}

function Way({ name, now, onGo }: { name: string; now: string; onGo: () => void }) {
  return (
    <button type="button" class="row" onClick={onGo}>
      <span class="row-what">
        <span class="row-name">{name}</span>
      </span>
      <span class="row-end">{now}</span>
    </button>
  );
}
