/** What stands beside every figure of this room: a planning aid, and what stands above it. */

import { t } from "../words/catalogue";

export function PlanningAid() {
  return (
    <p class="need-aid">
      {t("These figures are planning aids. The water authority’s rules and local law stand above them.")}
    </p>
  );
}
