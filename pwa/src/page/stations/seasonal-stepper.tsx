/** The seasonal percentage to step or to type. */

import { readNumber } from "../controls/number-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import { mayEdit } from "../store/queries";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { MOST_PCT } from "./seasonal";

interface SeasonalStepperProps {
  /** Of what: the site or a program. */
  name: string;
  value: number;
  was: number;
  onChange: (pct: number) => void;
  onFault: (words: string | null) => void;
}

export function SeasonalStepper({ name, value, was, onChange, onFault }: SeasonalStepperProps) {
  const label = t("Seasonal percentage");
  return (
    <Stepper
      label={t("Seasonal percentage of {name}", { name })}
      hint={t("Every run time is multiplied by it; 100 leaves them as they are.")}
      value={value}
      was={was}
      least={0}
      most={MOST_PCT}
      steps={[-10, -5, 5, 10]}
      write={(given) => figure(given, 0)}
      unit={t("%")}
      read={(text) => readNumber(text, { label, least: 0, most: MOST_PCT, required: true }) as Read<number>}
      stepName={(by) =>
        by > 0 ? t("{percent} percent more", { percent: by }) : t("{percent} percent less", { percent: -by })
      }
      disabled={!mayEdit.value}
      onChange={onChange}
      onFault={onFault}
    />
  );
}
