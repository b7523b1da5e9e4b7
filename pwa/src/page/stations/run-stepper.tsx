/** A run time to step by minutes or to type in any way it is said. */

import { readLength } from "../controls/duration-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import { t } from "../words/catalogue";
import { LEAST_S, MOST_S } from "./run-times";
import { minutesText, minutesUnit, stepName } from "./run-words";

interface RunStepperProps {
  value: number;
  was: number;
  disabled: boolean;
  onChange: (run_s: number) => void;
  onFault: (words: string | null) => void;
}

export function RunStepper({ value, was, disabled, onChange, onFault }: RunStepperProps) {
  return (
    <Stepper
      label={t("Run time")}
      value={value}
      was={was}
      least={Math.min(LEAST_S, was)}
      most={MOST_S}
      size={60}
      write={minutesText}
      unit={minutesUnit(value)}
      read={(text) =>
        readLength(text, { label: t("Run time"), least: 1, most: MOST_S, required: true }) as Read<number>
      }
      stepName={stepName}
      disabled={disabled}
      onChange={onChange}
      onFault={onFault}
    />
  );
}
