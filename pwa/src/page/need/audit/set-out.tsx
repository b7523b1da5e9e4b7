/** Setting the cans out: so many along, so many across, in one go; more places on a side later. */

import { useState } from "preact/hooks";
import { NumberField } from "../../controls/number-field";
import { t, tn } from "../../words/catalogue";
import type { Extent } from "./grid";

const MOST_SIDE = 20;
/** Common practice, no source: twenty cans or more say something about a station. */
const USUAL: Extent = { columns: 6, rows: 4 };

export function SetOut({ onSetOut }: { onSetOut: (extent: Extent) => void }) {
  const [extent, setExtent] = useState<Partial<Extent>>(USUAL);
  const { columns, rows } = extent;
  const side = { least: 1, most: MOST_SIDE, required: true };
  return (
    <>
      <p class="field-hint">
        {t("Stand along one edge of the ground. Cans go out in even steps, the same way along and across.")}
      </p>
      <div class="field-row">
        <NumberField
          {...side}
          label={t("Cans in a row")}
          value={columns ?? null}
          onChange={(to) => setExtent({ ...extent, columns: to ?? 0 })}
        />
        <NumberField
          {...side}
          label={t("Rows")}
          value={rows ?? null}
          onChange={(to) => setExtent({ ...extent, rows: to ?? 0 })}
        />
      </div>
      <button
        type="button"
        class="button button-strong"
        disabled={!columns || !rows}
        onClick={() => columns && rows && onSetOut({ columns, rows })}
      >
        {tn("Set out {count} can", "Set out {count} cans", (columns ?? 0) * (rows ?? 0))}
      </button>
    </>
  );
}
