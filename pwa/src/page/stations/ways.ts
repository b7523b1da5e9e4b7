/** The steppers for changing many run times: their limits, their figures and the names of their steps. */

import { readLength } from "../controls/duration-field";
import { readNumber } from "../controls/number-field";
import type { Read } from "../controls/typed";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { numberFormat } from "../words/formats";
import { MOST_S, type Way } from "./run-times";
import { stepName } from "./run-words";

interface Steps {
  label: () => string;
  least: number;
  most: number;
  steps: readonly number[];
  write: (value: number) => string;
  unit: () => string;
  read: (text: string) => Read<number>;
  stepName: (by: number) => string;
}

const signedFigure = (value: number): string =>
  numberFormat({ signDisplay: "exceptZero" }).format(value).replace("-", "−");

export const STEPPERS: Record<Way, Steps> = {
  percent: {
    label: () => t("Percent more or less"),
    least: -100,
    most: 200,
    steps: [-10, -5, 5, 10],
    write: signedFigure,
    unit: () => t("%"),
    read: (text) =>
      readNumber(text, { label: t("Percent more or less"), least: -100, most: 200, required: true }) as Read<number>,
    stepName: (by) =>
      by > 0 ? t("{percent} percent more", { percent: by }) : t("{percent} percent less", { percent: -by }),
  },
  minutes: {
    label: () => t("Minutes more or less"),
    least: -720,
    most: 720,
    steps: [-5, -1, 1, 5],
    write: signedFigure,
    unit: () => t("min"),
    read: (text) =>
      readNumber(text, { label: t("Minutes more or less"), least: -720, most: 720, required: true }) as Read<number>,
    stepName,
  },
  same: {
    label: () => t("Run time for all"),
    least: 1,
    most: MOST_S / 60,
    steps: [-5, -1, 1, 5],
    write: (value) => figure(value, 2),
    unit: () => t("min"),
    read: readMinutes,
    stepName,
  },
};

/** `1 h 20` is 80 minutes here. */
function readMinutes(text: string): Read<number> {
  const found = readLength(text, { label: t("Run time for all"), least: 60, most: MOST_S, required: true });
  return "fault" in found ? found : { value: (found.value ?? 0) / 60 };
}
