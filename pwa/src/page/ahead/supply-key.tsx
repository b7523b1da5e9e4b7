/** Which shade is which supply. */

import { t } from "../words/catalogue";
import type { Outlook } from "./outlook";
import { shadeName } from "./shades";

export function SupplyKey({ outlook }: { outlook: Outlook }) {
  return (
    <ul class="supply-key" aria-label={t("Supplies")}>
      {outlook.groups.map((group, index) => (
        <li key={group.supply}>
          <ShadeChip group={index} />
          <bdi>{group.name}</bdi>
        </li>
      ))}
    </ul>
  );
}

export function ShadeChip({ group }: { group: number }) {
  return (
    <svg class={`chip on-stone shade-${group}`} viewBox="0 0 30 21" aria-hidden="true">
      <path
        class="band"
        d="M0.75 0.75H29.25V12A8 8 0 0 1 21.25 20.25H8.75A8 8 0 0 1 0.75 12Z"
        fill={`url(#${shadeName(group, "stone")})`}
      />
    </svg>
  );
}
