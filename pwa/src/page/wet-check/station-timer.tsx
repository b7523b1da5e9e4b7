/** How long the station's water still runs, in figures that are read at arm's length, and the button that starts it. */

import { useEffect, useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { keepAwake } from "./awake";
import { readySound, ring } from "./sound";
import { leftAt } from "./timer";
import { change, phoneTime } from "./under-way";
import { pause, start, type Walk } from "./walk";
import { clockWords } from "./words";

const LOOK_MS = 250;
const BUZZ_MS = [400, 200, 400];

export function StationTimer({ walk, number }: { walk: Walk; number: string }) {
  const runs = walk.timer.since !== null;
  const left = useLeft(walk);
  const over = left <= 0;
  useEffect(() => (runs ? keepAwake() : undefined), [runs]);
  useEffect(() => {
    if (!runs || !over) return;
    // Where the phone can do neither, or its owner forbids it, the words alone tell it.
    navigator.vibrate?.(BUZZ_MS);
    ring();
  }, [runs, over]);
  const press = () => {
    readySound();
    change((now) => (runs ? pause(now, phoneTime()) : start(now, phoneTime())));
  };
  return (
    <section class={`wet-timer${over ? " wet-over" : ""}`} aria-label={t("Time with water on")}>
      <p class="wet-left" role="timer" dir="ltr">
        {clockWords(left)}
      </p>
      <p class="wet-said" role="status">
        {over ? t("Time is up at {station}: close its valve.", { station: number }) : runs ? t("Water is on.") : ""}
      </p>
      <div class="wet-run">
        <button type="button" class={`button wet-start${runs ? "" : " button-strong"}`} onClick={press}>
          {runs ? t("Pause") : left < walk.each_s ? t("Go on") : t("Water is on: start")}
        </button>
      </div>
      <span class="unseen">{t("Each station gets {run}.", { run: duration(walk.each_s) })}</span>
    </section>
  );
}

/** Looked at again while it runs. */
function useLeft({ timer }: Walk): number {
  const [at, look] = useState(phoneTime());
  useEffect(() => {
    look(phoneTime());
    if (timer.since === null) return;
    const ticking = setInterval(() => look(phoneTime()), LOOK_MS);
    return () => clearInterval(ticking);
  }, [timer.since]);
  return leftAt(timer, at);
}
