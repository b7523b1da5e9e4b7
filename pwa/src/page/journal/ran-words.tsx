/** What ran of the selected run, below why it stands where it stands. */

import "../look/journal.css";
import type { LoadedNight } from "../night/night";
import { exactTimeAt } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import { t } from "../words/catalogue";
import { listed } from "../words/lists";
import type { Ran, Why } from "./ran";
import { ran } from "./tonight-ran";

export function RanWords({ night, run }: { night: LoadedNight; run: Run }) {
  const found = ran.value.get(runKey(run));
  return found ? <p class="why-ran">{ranWords(night, found)}</p> : null;
}

function ranWords(night: LoadedNight, { how, spans, run, why }: Ran): string {
  const at = (instant: number) => exactTimeAt(night.clock, instant);
  const planned = t("{start}–{end}", { start: at(run.start), end: at(run.end) });
  const isOpen = spans.some((one) => one.end === null);
  if (how === "as_planned") return isOpen ? t("Its valve is open, as planned.") : t("It ran as planned.");
  const because = whyWords(why);
  if (how === "not") {
    return because
      ? t("Planned {planned}, did not run: {because}.", { planned, because })
      : t("Planned {planned}, did not run.", { planned });
  }
  const times = spans.map(({ start, end }) =>
    end === null ? t("{start} on", { start: at(start) }) : t("{start}–{end}", { start: at(start), end: at(end) }),
  );
  const told = { planned, times: listed(times) };
  return because
    ? t("Planned {planned}, ran {times}: {because}.", { ...told, because })
    : t("Planned {planned}, ran {times}.", told);
}

function whyWords(why: Why): string {
  if (why === "power") return t("power lost");
  if (why === "shut") return t("water shut off");
  return why === "stopped" ? t("all watering stopped") : "";
}
