/** The last days' weather, and the way to enter yesterday's and today's. */

import { useState } from "preact/hooks";
import { records } from "../../records/desk";
import { todayHere } from "../../records/today";
import { copy, mayEdit } from "../../store/queries";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { dayAfter, shortDay } from "../../words/moments";
import { sayNeed } from "../told/names";
import { type AskedDays, useDays } from "./asking";
import { DayRow } from "./day-row";
import { daysBack, recordOn } from "./days";

const FORTNIGHT = 14;

export function DayList() {
  const [count, setCount] = useState(FORTNIGHT);
  const last = todayHere.value;
  const asked = useDays("weather list", records.value, dayAfter(last, 1 - count), last);
  return (
    <>
      <p class="need-note">
        {t("Readings are kept as they are. What is odd about them is shown, and never repaired.")}
      </p>
      {mayEdit.value ? <Entries today={last} /> : null}
      <Asking asked={asked} />
      <ul class="weather-days">
        {daysBack(records.value, last, count, asked.told?.days).map((shown) => (
          <li key={shown.day}>
            <DayRow shown={shown} />
          </li>
        ))}
      </ul>
      <div class="need-acts">
        <button type="button" class="button" onClick={() => setCount(count + FORTNIGHT)}>
          {t("Show the two weeks before")}
        </button>
        {copy.value?.role === "manager" ? (
          <button type="button" class="button" onClick={() => go("need", "weather-stations")}>
            {t("Weather stations")}
          </button>
        ) : null}
      </div>
    </>
  );
}

/** Yesterday first: its day is over, and its readings are whole. */
function Entries({ today }: { today: string }) {
  const yesterday = dayAfter(today, -1);
  const there = (day: string) => recordOn(records.value, day, "observed") !== undefined;
  const of = { yesterday: { day: shortDay(yesterday) }, today: { day: shortDay(today) } };
  return (
    <div class="need-acts">
      <button type="button" class="button button-strong" onClick={() => go("need", "weather", yesterday)}>
        {there(yesterday) ? t("Change yesterday, {day}", of.yesterday) : t("Enter yesterday, {day}", of.yesterday)}
      </button>
      <button type="button" class="button" onClick={() => go("need", "weather", today)}>
        {there(today) ? t("Change today, {day}", of.today) : t("Enter today, {day}", of.today)}
      </button>
    </div>
  );
}

export function Asking({ asked }: { asked: AskedDays }) {
  const lines =
    asked.is === "known" ? (asked.told?.messages ?? []).map(sayNeed) : [waitingWords(asked)].filter(Boolean);
  return (
    <div class="weather-asking" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

function waitingWords({ is, progress, told }: AskedDays): string {
  if (is === "loading") {
    return t("What each day is worth is worked out once the planner is ready: {percent} %.", {
      percent: figure(progress * 100, 0),
    });
  }
  if (is === "absent") return t("This browser cannot work out what each day is worth. Readings are kept all the same.");
  return is === "working" && !told ? t("Working it out…") : "";
}
