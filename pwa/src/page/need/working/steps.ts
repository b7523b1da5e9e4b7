/** The way from weather to minutes in a few steps, and which figures belong to each. */

import type { Figure, Work } from "../told/shapes";

export type StepName = "plants" | "rain" | "soil" | "depth" | "minutes";

export const STEPS: Readonly<Record<StepName, readonly string[]>> = {
  plants: [
    "pressure",
    "gamma",
    "slope",
    "saturation",
    "vapour",
    "wind",
    "above",
    "solar",
    "clear",
    "cloud_ratio",
    "net_short",
    "net_long",
    "net",
    "ground",
    "reference",
    "coefficient",
    "demand",
    "stress",
    "taken",
  ],
  rain: ["rain", "effective", "rain_lost", "rain_ran_off"],
  soil: ["total", "fraction", "ready", "before", "applied", "ran_off", "uneven", "percolated", "depletion"],
  depth: ["lacking", "ready_ahead", "share", "net_depth", "uniformity", "multiplier", "gross_depth"],
  minutes: ["rate", "run", "cycles", "soak", "fitting"],
};

export interface Step {
  name: StepName;
  figures: Figure[];
}

/** Every figure of the work, each in its step. One that this page does not know was made by another version: it goes last. */
export function stepsOf(work: Pick<Work, "figures">): Step[] {
  const names = Object.keys(STEPS) as StepName[];
  const placed = (key: string) => names.find((name) => STEPS[name].includes(key)) ?? "minutes";
  return names.map((name) => ({ name, figures: work.figures.filter(({ key }) => placed(key) === name) }));
}

/** What is looked up to tell of a step; null where the work has no such figure, or no value of it. */
export function amountOf(work: Pick<Work, "figures">, key: string): number | null {
  return work.figures.find((one) => one.key === key)?.value ?? null;
}

export function figureOf(work: Pick<Work, "figures">, key: string): Figure | undefined {
  return work.figures.find((one) => one.key === key);
}
