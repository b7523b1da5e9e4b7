/** What interrupts a night, and what becomes of its rest, in words. */

import { timeAt } from "../night/reading";
import type { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { t, tn } from "../words/catalogue";
import { volume } from "../words/units";
import type { Interruption, What } from "./interruptions";
import type { Rest, RestFigures, Way } from "./rests";

interface Night {
  document: SiteDocument;
  clock: SiteClock;
}

export function goingOnWords({ what, since, controller, supply }: Interruption, { document, clock }: Night): string {
  const time = timeAt(clock, since);
  if (what === "stopped") return t("All watering is stopped since {time}.", { time });
  if (what === "shut") return t("{supply} is shut since {time}.", { supply: named(document, "supply", supply), time });
  if (controller === undefined) return t("No power at the whole site since {time}.", { time });
  return t("No power at {controller} since {time}.", { controller: named(document, "controller", controller), time });
}

function named(document: SiteDocument, kind: string, id = ""): string {
  return document.nameOf(kind, id);
}

export function isOverWords(what: What): string {
  if (what === "stopped") return t("The stop is lifted");
  return what === "shut" ? t("It gives water again") : t("Power is back");
}

export function wayWords(way: Way): string {
  return way === "keep" ? t("Keep to the clock") : t("Make up for it");
}

export function wayAbout(way: Way): string {
  return way === "keep"
    ? t("What is planned later runs as planned. What was missed is lost.")
    : t("What was missed runs later, as far as windows, limits and closures let it.");
}

/** What a rest changes, a sentence each. */
export function figureWords({ figures, way }: Pick<Rest, "figures" | "way">): string[] {
  const lines = way === "recover" ? [t("{volume} is made up for.", { volume: volume(figures.recovered_l) })] : [];
  lines.push(
    figures.lost_l > 0
      ? t("{volume} of tonight’s plan is lost; the next night’s need counts it.", { volume: volume(figures.lost_l) })
      : t("Nothing of tonight’s plan is lost."),
  );
  return [...lines, movesWords(figures)];
}

function movesWords({ moved_count, later_count }: RestFigures): string {
  if (moved_count === 0) return t("No run that is still to come moves.");
  return tn(
    "{count} run that is still to come moves or falls away, of {all}.",
    "{count} runs that are still to come move or fall away, of {all}.",
    moved_count,
    { all: later_count },
  );
}

/** What the site's own rule will do, where it has one: the server carries it out, a phone never does. Else null. */
export function ruleWords(rule: unknown): string | null {
  if (rule === "keep") {
    return t("By the site’s rule it keeps to the clock, two minutes after the server hears that all is over.");
  }
  if (rule !== "recover") return null;
  return t("By the site’s rule it is made up for, two minutes after the server hears that all is over.");
}
