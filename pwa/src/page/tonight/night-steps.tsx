/** The way to the nights before and after. */

import { ask, asked, type LoadedNight, TONIGHT, tonight } from "../night/night";
import { catalogue, t } from "../words/catalogue";
import { dayAfter, shortDay } from "../words/moments";

/** Nights that can be looked at: the one before tonight, and two weeks from tonight on. */
const BEFORE = -1;
const AFTER = 13;

export function NightSteps({ night }: { night: LoadedNight }) {
  const [back, forward] = catalogue.value.direction === "rtl" ? ["→", "←"] : ["←", "→"];
  const day = night.sheet.night;
  const base = tonight.value || day;
  const [previous, next] = [dayAfter(day, -1), dayAfter(day, 1)];
  return (
    <nav class="steps" aria-label={t("Nights")}>
      <Step
        to={previous}
        off={previous < dayAfter(base, BEFORE)}
        label={t("Night before, {date}", { date: shortDay(previous) })}
      >
        <span aria-hidden="true">{back}</span> {shortDay(previous)}
      </Step>
      {asked.value === TONIGHT ? null : (
        <Step to={TONIGHT} off={false} label={t("Tonight")}>
          {t("Tonight")}
        </Step>
      )}
      <Step to={next} off={next > dayAfter(base, AFTER)} label={t("Night after, {date}", { date: shortDay(next) })}>
        {shortDay(next)} <span aria-hidden="true">{forward}</span>
      </Step>
    </nav>
  );
}

interface StepProps {
  to: string;
  off: boolean;
  label: string;
  children: preact.ComponentChildren;
}

function Step({ to, off, label, children }: StepProps) {
  return (
    <button type="button" class="button step" aria-label={label} disabled={off} onClick={() => ask(to)}>
      {children}
    </button>
  );
}
