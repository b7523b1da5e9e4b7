/** The cans as they stand on the ground, to tap: a can to read it, an empty place to put one there. A map: never mirrored. */

import { t } from "../../words/catalogue";
import { canWords, freeWords } from "./can-words";
import { type Can, canAt, type Extent, type Place, placesOf } from "./grid";
import type { Measure } from "./measure";

interface CanGridProps {
  cans: readonly Can[];
  extent: Extent;
  measure: Measure;
  chosen: string | null;
  /** Where a tap on an empty place does something. */
  mayPlace: boolean;
  onChoose: (can: Can) => void;
  onPlace: (place: Place) => void;
}

export function CanGrid({ cans, extent, measure, chosen, mayPlace, onChoose, onPlace }: CanGridProps) {
  return (
    <div class="can-ground">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset would be read before each of its many cans. */}
      <div
        class="can-grid"
        dir="ltr"
        role="group"
        aria-label={t("Cans on the ground")}
        style={{ "--columns": String(extent.columns) }}
      >
        {placesOf(extent).map((place) => {
          const can = canAt(cans, place);
          const key = `${place.column}.${place.row}`;
          if (!can) return <Free key={key} place={place} may={mayPlace} onPlace={onPlace} />;
          return (
            <button
              key={key}
              type="button"
              class={can.catch === null ? "can can-unread" : "can"}
              aria-pressed={can.id === chosen}
              aria-label={canWords(can, measure)}
              onClick={() => onChoose(can)}
            >
              {can.catch === null ? "·" : measure.write(can.catch)}
            </button>
          );
        })}
      </div>
    </div>
  );
}

function Free({ place, may, onPlace }: { place: Place; may: boolean; onPlace: (place: Place) => void }) {
  return (
    <button type="button" class="can-free" aria-label={freeWords(place)} disabled={!may} onClick={() => onPlace(place)}>
      {may ? "+" : ""}
    </button>
  );
}
