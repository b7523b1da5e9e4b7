/** The tree of supplies: each source, and below it the mains it feeds, on lines that join them. */

import { FillBowl } from "../shell/fill-bowl";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { records } from "./desk";
import { recordLine, recordTitle } from "./record-words";
import { StateBadge } from "./state-badge";
import { supplyTree, type TreeRow } from "./supply-tree";

export function SupplyTree({ open }: { open?: string | undefined }) {
  const rows = supplyTree(records.value);
  return (
    <ul class="record-rows supply-tree" aria-label={t("Supplies, each below what feeds it")}>
      {rows.map((row) => (
        <li key={row.supply.id} style={{ "--depth": String(Math.min(row.depth, 5)) }}>
          <TreeRowButton row={row} open={row.supply.id === open} />
        </li>
      ))}
    </ul>
  );
}

function TreeRowButton({ row: { supply, depth }, open }: { row: TreeRow; open: boolean }) {
  const feeder = depth ? records.value.get("supplies", String(supply.fed_by)) : undefined;
  return (
    <button
      type="button"
      class={open ? "row record-row tree-row row-chosen" : "row record-row tree-row"}
      aria-current={open ? "true" : undefined}
      onClick={() => go("site", "supplies", supply.id)}
    >
      {depth ? <span class="tree-branch" aria-hidden="true" /> : <FillBowl fill="full" />}
      <span class="row-what">
        <span class="row-name">
          <bdi>{recordTitle(supply, records.value)}</bdi>
        </span>
        <span class="row-under">
          {feeder ? (
            <span class="unseen">{t("Fed by {supply}.", { supply: recordTitle(feeder, records.value) })} </span>
          ) : null}
          {recordLine(supply, records.value)}
        </span>
      </span>
      <StateBadge table="supplies" id={supply.id} />
    </button>
  );
}
