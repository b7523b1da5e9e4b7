/** What a night does to a station, in a sentence or two. */

import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { shortDay } from "../words/moments";
import { type Fate, nextNightOf } from "./fate";
import type { LoadedNight } from "./night";
import type { KnownNight } from "./nights";
import { sayFor, timeAt } from "./reading";
import type { Shortfall } from "./sheet";

/** When it gets water in this night, or that it gets none and why. */
export function fateWords(night: LoadedNight, fate: Fate, tonight: boolean): string {
  const at = (instant: number) => timeAt(night.clock, instant);
  switch (fate.kind) {
    case "open":
      return t("Open now, until {time}.", { time: at(fate.run.end) });
    case "coming":
      return t("Water at {time}, for {duration}.", {
        time: at(fate.run.start),
        duration: duration(fate.run.end - fate.run.start),
      });
    case "done":
      return t("No more tonight: closed since {time}.", { time: at(fate.run.end) });
    case "short":
    case "closed":
      return noneWords(night, fate.kind, fate.shortfall, tonight);
    case "not_due":
      return tonight ? t("Not due tonight.") : t("Not due this night.");
    case "no_program":
      return t("In no program: it gets no water by itself.");
  }
}

function noneWords(night: LoadedNight, kind: "short" | "closed", { why }: Shortfall, tonight: boolean): string {
  const reason = sayFor(night, why);
  if (kind === "closed") {
    return tonight ? t("Closed tonight. {reason}", { reason }) : t("Closed this night. {reason}", { reason });
  }
  return tonight ? t("Does not fit tonight. {reason}", { reason }) : t("Does not fit this night. {reason}", { reason });
}

/** Where this night brings it no more water: the next one that does. Empty where there is nothing to add. */
export function afterWords(fate: Fate, known: ReadonlyMap<string, KnownNight>, station: string, after: string): string {
  if (fate.kind === "open" || fate.kind === "coming" || fate.kind === "no_program") return "";
  const next = nextNightOf(known, station, after);
  if (next)
    return t("Next water {date}, {time}.", { date: shortDay(next.night), time: timeAt(next.clock, next.run.start) });
  const last = [...known.keys()].sort().pop();
  return last && last > after ? t("None by the night of {date}.", { date: shortDay(last) }) : "";
}
