/** Each step of the work in one line, for whoever does not want all its figures. */

import { t, tn } from "../../words/catalogue";
import { duration } from "../../words/durations";
import { figure } from "../../words/figures";
import { depth, figureWords, NOTHING } from "../told/amounts";
import type { Work } from "../told/shapes";
import { amountOf, figureOf, type StepName } from "./steps";

export interface StepWords {
  title: string;
  /** The figure that the step comes to. */
  comes: string;
  line: string;
}

export function stepWords(name: StepName, work: Work): StepWords {
  return WORDS[name](work);
}

const WORDS: Readonly<Record<StepName, (work: Work) => StepWords>> = { plants, rain, soil, depth: toGive, minutes };

function plants(work: Work): StepWords {
  const [reference, coefficient, stress] = ["reference", "coefficient", "stress"].map((key) => amountOf(work, key));
  const lines: string[] = [];
  if (reference != null && coefficient != null)
    lines.push(
      t("{reference} of reference evapotranspiration, times {coefficient} for this planting.", {
        reference: depth(reference),
        coefficient: figure(coefficient, 2),
      }),
    );
  if (stress != null && stress < 1)
    lines.push(t("Dry soil held them to {percent} % of it.", { percent: figure(stress * 100, 0) }));
  return { title: t("What the plants used"), comes: inDepth(work, "taken", "reference"), line: lines.join(" ") };
}

function rain(work: Work): StepWords {
  const [fell, reached] = [amountOf(work, "rain") ?? 0, amountOf(work, "effective") ?? 0];
  const line = fell > 0 ? t("{rain} fell; {effective} reached the roots.", both(fell, reached)) : t("No rain.");
  return { title: t("What rained"), comes: depth(reached), line };
}

function both(fell: number, reached: number) {
  return { rain: depth(fell), effective: depth(reached) };
}

function soil(work: Work): StepWords {
  const [total, ready] = [amountOf(work, "total"), amountOf(work, "ready")];
  const line =
    total === null || ready === null
      ? ""
      : t("Of {total} that the root zone holds. Stress begins at {ready}.", {
          total: depth(total),
          ready: depth(ready),
        });
  return { title: t("What the soil lacks"), comes: inDepth(work, "depletion"), line };
}

function toGive(work: Work): StepWords {
  const [net, times] = [amountOf(work, "net_depth"), amountOf(work, "multiplier")];
  const title = t("How much to give");
  if (net === null || times === null) return { title, ...nothingGiven(work, depth(0)) };
  const line = t("{net} for the roots, times {multiplier} for uneven wetting.", {
    net: depth(net),
    multiplier: figure(times, 2),
  });
  return { title, comes: inDepth(work, "gross_depth"), line };
}

/** Nothing is needed; or what is needed cannot be told in depth for this station. */
function nothingGiven({ decision }: Work, none: string): Omit<StepWords, "title"> {
  return decision?.code.startsWith("need.tonight")
    ? { comes: NOTHING, line: t("The station’s rate is not known, so its run time stays as set by hand.") }
    : { comes: none, line: t("Nothing tonight.") };
}

function minutes(work: Work): StepWords {
  const run = amountOf(work, "run");
  const title = t("Minutes, cycles and soak");
  if (run === null) return { title, ...nothingGiven(work, duration(0)) };
  const rate = figureOf(work, "rate");
  return { title, comes: duration(run), line: cyclesLine(work, rate ? figureWords(rate) : NOTHING) };
}

function cyclesLine(work: Work, rate: string): string {
  const [cycles, soak] = [amountOf(work, "cycles") ?? 1, amountOf(work, "soak") ?? 0];
  if (cycles <= 1) return t("At {rate}, in one go.", { rate });
  return tn(
    "At {rate}, in {count} cycle with {soak} of soak.",
    "At {rate}, in {count} cycles with {soak} of soak between them.",
    cycles,
    { rate, soak: duration(soak) },
  );
}

/** The first of these figures that there is. */
function inDepth(work: Work, ...keys: string[]): string {
  const found = keys.map((key) => amountOf(work, key)).find((value) => value !== null);
  return found == null ? NOTHING : depth(found);
}
