/** A time is typed, and the plan says whether it stays dry until then. */

import { useId, useState } from "preact/hooks";
import { FieldFrame } from "../controls/field-frame";
import { missing, type Read, readAs, useTyped } from "../controls/typed";
import { TypedInput } from "../controls/typed-input";
import { dryUntil, instantOf, type Wet } from "../night/dry";
import type { LoadedNight } from "../night/night";
import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { readClock } from "../words/clock-typing";
import { clockField } from "../words/moments";

interface DryCheckProps {
  night: LoadedNight;
  spans: readonly Wet[];
  from: number;
}

/** When gates and gardens open, mostly: common practice, no source. */
const FIRST_ASKED = "06:00";

export function DryCheck({ night, spans, from }: DryCheckProps) {
  const id = useId();
  const [time, ask] = useState(FIRST_ASKED);
  const label = t("Dry until");
  const typed = useTyped<string>({
    value: time,
    write: clockField,
    read: (text): Read<string> => (text.trim() ? readAs(label, () => readClock(text)) : missing(label)),
    onChange: ask,
  });
  return (
    <div class="dry-check">
      <FieldFrame id={id} label={label} fault={typed.fault}>
        <TypedInput id={id} typed={typed} fault={typed.fault} keys="text" />
      </FieldFrame>
      <p class="dry-answer" role="status">
        {answer(night, spans, from, time)}
      </p>
    </div>
  );
}

function answer(night: LoadedNight, spans: readonly Wet[], from: number, time: string): string {
  const until = instantOf(night.clock, time, from, night.sheet.ends);
  if (until === null) {
    return t("{time} is not in this night any more: it ends {end}.", {
      time: clockField(time),
      end: timeAt(night.clock, night.sheet.ends),
    });
  }
  const asked = timeAt(night.clock, until);
  const { wet } = dryUntil(spans, from, until, night.sheet.ends);
  if (!wet) return t("Dry until {time}? Yes, by the plan.", { time: asked });
  const run = wet.runs.find((one) => one.end > from) ?? wet.runs[0];
  return t("Dry until {time}? No: {station} runs {start}–{end}.", {
    time: asked,
    station: night.document.stations.get(run?.station ?? "")?.number ?? "",
    start: timeAt(night.clock, run?.start ?? wet.start),
    end: timeAt(night.clock, run?.end ?? wet.end),
  });
}
