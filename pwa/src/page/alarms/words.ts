/** Alarms in words. */

import { whenWords } from "../changes/when";
import type { SiteDocument } from "../site/document";
import { line } from "../store/queries";
import { catalogue, t } from "../words/catalogue";
import { say } from "../words/say";
import type { Alarm, Explained, Sentence } from "./shapes";

/** In the reader's language, units and clock, whenever it came. */
export function sentenceWords(sentence: Sentence, document: SiteDocument): string {
  if (!catalogue.value.sayings[sentence.code]) return sentence.detail;
  return say(sentence, { name: (kind, record) => document.nameOf(kind, record), time: whenWords });
}

export function gravityWords(gravity: Alarm["gravity"]): string {
  const words = { grave: t("Grave alarm"), serious: t("Serious alarm"), minor: t("Small alarm") };
  return words[gravity];
}

export function explainedWords(explained: Explained): string {
  const words: Record<Explained, () => string> = {
    fault: () => t("Something is broken"),
    work: () => t("Somebody works there"),
    other_water: () => t("Water that nobody planned: a hose, a fountain"),
    meter: () => t("The meter or its line"),
    nothing: () => t("Nothing was wrong"),
    other: () => t("Something else"),
  };
  return words[explained]();
}

/** Empty while the phone is in step: then alarms are as of now. */
export function asOfWords(as_of: number): string {
  if (!as_of || line.value.now === "in_step" || line.value.now === "sending") return "";
  return t("As of {time}: newer alarms need signal.", { time: whenWords(as_of) });
}
