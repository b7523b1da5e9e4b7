/** On a phone one lane can be looked at alone, wide enough for its labels, and scrolled. */

import { t } from "../words/catalogue";
import type { Lane } from "./lanes";

interface LanePickerProps {
  lanes: readonly Lane[];
  only: string | null;
  onChoose(supply: string | null): void;
}

export function LanePicker({ lanes, only, onChoose }: LanePickerProps) {
  return (
    <fieldset class="lane-picker">
      <legend>{t("Look closer")}</legend>
      <div class="lane-choices">
        <LaneChoice chosen={only === null} onChoose={() => onChoose(null)}>
          {t("All lanes")}
        </LaneChoice>
        {lanes.map((lane) => (
          <LaneChoice key={lane.supply} chosen={only === lane.supply} onChoose={() => onChoose(lane.supply)}>
            <bdi>{lane.name}</bdi>
          </LaneChoice>
        ))}
      </div>
    </fieldset>
  );
}

interface LaneChoiceProps {
  chosen: boolean;
  onChoose(): void;
  children: preact.ComponentChildren;
}

function LaneChoice({ chosen, onChoose, children }: LaneChoiceProps) {
  return (
    <button type="button" class="lane-choice" aria-pressed={chosen} onClick={onChoose}>
      {children}
    </button>
  );
}
