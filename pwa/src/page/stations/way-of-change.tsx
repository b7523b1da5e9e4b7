/** How many run times change at once, by percent, by minutes or to one time; and by how much. */

import { Choice } from "../controls/choice";
import { Stepper } from "../controls/stepper";
import { t } from "../words/catalogue";
import type { Way } from "./run-times";
import { STEPPERS } from "./ways";

interface WayOfChangeProps {
  way: Way;
  by: number;
  onWay: (way: Way) => void;
  onBy: (value: number) => void;
  onFault: (words: string | null) => void;
}

export function WayOfChange({ way, by, onWay, onBy, onFault }: WayOfChangeProps) {
  const steps = STEPPERS[way];
  return (
    <>
      <Choice<Way>
        label={t("How")}
        value={way}
        options={[
          { value: "percent", label: t("By percent") },
          { value: "minutes", label: t("By minutes") },
          { value: "same", label: t("One time for all") },
        ]}
        onChange={onWay}
      />
      <Stepper
        key={way}
        label={steps.label()}
        value={by}
        was={by}
        least={steps.least}
        most={steps.most}
        steps={steps.steps}
        write={steps.write}
        unit={steps.unit()}
        read={(text) => steps.read(text)}
        stepName={steps.stepName}
        onChange={onBy}
        onFault={onFault}
      />
    </>
  );
}
