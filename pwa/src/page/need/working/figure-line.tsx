/** One number of the work: what it is, how much, what it follows from, by which source, and how it was come by. */

import { site } from "../../store/queries";
import { t } from "../../words/catalogue";
import { listed } from "../../words/lists";
import { longDay } from "../../words/moments";
import { figureWords } from "../told/amounts";
import { figureName } from "../told/names";
import { rungWords } from "../told/rungs";
import type { Figure } from "../told/shapes";

export function FigureLine({ figure }: { figure: Figure }) {
  const { inputs, source, rung, row } = figure;
  return (
    <li class="figure" data-figure={figure.key}>
      <span class="figure-name">{figureName(figure.key)}</span>
      <span class="figure-value">{figureWords(figure)}</span>
      <span class="figure-about">
        {inputs.length > 0 ? <span>{t("From: {figures}", { figures: listed(inputs.map(figureName)) })}</span> : null}
        {source ? <span>{t("Source: {source}", { source })}</span> : null}
        {rung ? <span>{rungWords(rung)}</span> : null}
        {row ? <span>{readingWords(row)}</span> : null}
      </span>
    </li>
  );
}

/** The weather that a figure came from; a record that has gone since is named all the same. */
export function readingWords(row: string): string {
  const day = site.value?.record("weather", row)?.day;
  return typeof day === "string" ? t("Reading of {day}", { day: longDay(day) }) : t("Reading: {row}", { row });
}
