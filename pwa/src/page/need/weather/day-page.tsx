/** One day's weather, typed by hand in one's own units: the few readings that matter first, the others below. */

import { useEffect, useState } from "preact/hooks";
import { isDate } from "../../records/checking";
import { draftOf, putDraft, records } from "../../records/desk";
import { EMPTY, splitKey, withRecord } from "../../records/draft";
import { type Form, formOf, type KeepOutcome, putBack } from "../../records/form";
import { GroupControl } from "../../records/group-control";
import { SaveBar } from "../../records/save-bar";
import { StateBadge } from "../../records/state-badge";
import { mayEdit, person } from "../../store/queries";
import { refine } from "../../way/way";
import { t } from "../../words/catalogue";
import { dayAfter, longDay } from "../../words/moments";
import { amount } from "../../words/units";
import { rungWords } from "../told/rungs";
import { useDays } from "./asking";
import { Asking } from "./day-list";
import { newDayId, recordOn } from "./days";
import { FlagList } from "./flag-list";

const FIRST = ["low_degc", "high_degc", "rain_mm"];
const OTHERS = ["dampest_pct", "driest_pct", "humidity_pct", "dew_degc", "wind_mps", "wind_height_m", "solar_mj"];
const LAST = ["sunshine_h", "et_mm", "source"];
/** So many days before it, for what only a series of days tells: a stuck sensor. */
const SERIES = 10;

export function DayPage({ day }: { day: string }) {
  const name = `weather/${day}`;
  const there = recordOn(records.value, day, "observed");
  const [key] = draftOf(name).keys();
  const id = there?.id ?? (key === undefined ? null : splitKey(key)[1]);
  useEffect(() => {
    if (id === null && mayEdit.value) begin(name, day);
  }, [name, id, mayEdit.value]);
  if (!isDate(day)) return <p class="need-note">{t("This is no day.")}</p>;
  if (id === null) return mayEdit.value ? null : <p class="need-note">{t("Nothing was read on this day.")}</p>;
  return <Sheet form={formOf(name, "weather", id)} day={day} />;
}

function begin(name: string, day: string): void {
  const source = person.peek()?.name;
  const record = { table: "weather", id: newDayId(day), day, kind: "observed", ...(source ? { source } : {}) };
  putDraft(name, withRecord(EMPTY, record));
}

function Sheet({ form, day }: { form: Form; day: string }) {
  const [outcome, setOutcome] = useState<KeepOutcome | null>(null);
  const done = (found: KeepOutcome) => {
    setOutcome(found);
    if (found === "kept") leave(form);
  };
  const fields = (names: readonly string[]) =>
    names.map((field) => <GroupControl key={field} form={form} field={field} />);
  return (
    <div class="weather-day">
      {form.was ? <StateBadge table="weather" id={form.was.id} long /> : null}
      <section class="record-section" aria-labelledby="weather-day">
        <h2 id="weather-day">{longDay(day)}</h2>
        <div class="record-fields">{fields(FIRST)}</div>
        <details class="weather-others">
          <summary>{t("More readings")}</summary>
          <div class="record-fields">{fields([...OTHERS, ...LAST])}</div>
        </details>
      </section>
      <Worth form={form} day={day} />
      <SaveBar form={form} outcome={outcome} onOutcome={done} onPutBack={() => leave(form)} />
    </div>
  );
}

function leave(form: Form): void {
  refine("need", "weather");
  putBack(form.name);
}

/** What the day is worth as it is typed, and what is odd about it before anything is kept. */
function Worth({ form, day }: { form: Form; day: string }) {
  const asked = useDays("weather day", form.records, dayAfter(day, 1 - SERIES), day);
  const told = asked.told?.days.find((one) => one.day === day);
  const series = (asked.told?.days ?? []).flatMap((one) =>
    one.flags.filter((flag) => flag.code === "weather.stuck" && one.day !== day),
  );
  return (
    <section class="record-section" aria-labelledby="weather-worth" aria-busy={asked.is === "working"}>
      <h2 id="weather-worth">{t("What it is worth")}</h2>
      <Asking asked={asked} />
      {told ? (
        <p class="weather-worth">
          {told.et_mm === null ? null : <strong>{amount("depth", told.et_mm)} </strong>}
          {rungWords(told.rung)}
        </p>
      ) : null}
      {told ? <FlagList day={day} flags={[...told.flags, ...series]} /> : null}
      <p class="record-note">
        {t(
          "Reference evapotranspiration of the day. Nothing of what you type is repaired, and odd readings can be kept.",
        )}
      </p>
    </section>
  );
}
