/** Into how many cycles a turn is cut, and how long it soaks between them. */

import { DurationField } from "../controls/duration-field";
import { NumberField } from "../controls/number-field";
import { t } from "../words/catalogue";
import { cyclesWords } from "./cycles";
import { MOST_CYCLES, MOST_SOAK_S, type RunValue } from "./run-times";

interface CyclesProps {
  value: RunValue;
  onChange: (value: RunValue) => void;
  report: (field: string) => (words: string | null) => void;
  disabled: boolean;
}

export function Cycles({ value, onChange, report, disabled }: CyclesProps) {
  return (
    <details class="as-table turn-cycles">
      <summary>
        <span>{t("Cycles and soak")}</span> <span class="turn-hints">{cyclesWords(value)}</span>
      </summary>
      <div class="field-row">
        <NumberField
          label={t("Cycles")}
          value={value.cycles}
          least={1}
          most={MOST_CYCLES}
          required
          disabled={disabled}
          onChange={(cycles) => onChange({ ...value, cycles: cycles ?? 1 })}
          onFault={report("cycles")}
        />
        <DurationField
          label={t("Soak between")}
          value={value.soak_s}
          least={0}
          most={MOST_SOAK_S}
          required
          disabled={disabled}
          onChange={(soak_s) => onChange({ ...value, soak_s: soak_s ?? 0 })}
          onFault={report("soak_s")}
        />
      </div>
    </details>
  );
}
