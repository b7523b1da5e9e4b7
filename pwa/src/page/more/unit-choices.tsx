/** Units: a whole set, and over it a unit of one's own for each quantity. */

import { Choice } from "../controls/choice";
import { PickList } from "../controls/pick-list";
import { t } from "../words/catalogue";
import { ownUnits, units } from "../words/reader";
import { MEASURED, type Measured, measuredName, setOptions, unitOptions } from "./settings-options";

export function UnitChoices() {
  return (
    <div class="unit-choices">
      <Choice
        label={t("Units")}
        value={units.value}
        options={setOptions()}
        onChange={(set) => {
          units.value = set;
        }}
      />
      <details class="unit-singles" open={Object.keys(ownUnits.value).length > 0}>
        <summary>{t("A unit of one's own for some quantities")}</summary>
        <div class="unit-grid">
          {(Object.keys(MEASURED) as Measured[]).map((quantity) => (
            <PickList
              key={quantity}
              label={measuredName(quantity)}
              value={ownUnits.value[quantity] ?? ""}
              options={unitOptions(quantity)}
              onChange={(unit) => choose(quantity, unit)}
            />
          ))}
        </div>
      </details>
    </div>
  );
}

function choose(quantity: Measured, unit: string): void {
  const { [quantity]: _, ...others } = ownUnits.peek();
  ownUnits.value = unit ? { ...others, [quantity]: unit } : others;
}
