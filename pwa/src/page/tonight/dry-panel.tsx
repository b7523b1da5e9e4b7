/** Is it dry here until …? The dry spells of a station or a part this night, by the plan. */

import { runsAt, type Subject, type Wet, wetFrom, wetSpans } from "../night/dry";
import type { LoadedNight } from "../night/night";
import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { DryBar } from "./dry-bar";
import { DryCheck } from "./dry-check";
import { StationTag } from "./station-tag";
import { subject as asked } from "./subject";

interface DryPanelProps {
  night: LoadedNight;
  instant: number | null;
  subject: Subject;
}

export function DryPanel({ night, instant, subject }: DryPanelProps) {
  const spans = wetSpans(runsAt(night.sheet, night.document, subject));
  const from = Math.max(instant ?? night.sheet.starts, night.sheet.starts);
  const coming = wetFrom(spans, from);
  return (
    <section id="dry" class="dry" aria-labelledby="dry-title">
      <div class="dry-head">
        <h2 id="dry-title">{t("Is it dry here until …?")}</h2>
        <button type="button" class="button" onClick={() => (asked.value = null)}>
          {t("Close")}
        </button>
      </div>
      <Place night={night} subject={subject} />
      <p class="dry-first">{firstWords(night, coming, from)}</p>
      <DryBar night={night} spans={spans} instant={instant} />
      <Spells night={night} spans={coming} from={from} />
      <DryCheck night={night} spans={spans} from={from} />
      <p class="dry-caution">
        {t("Caution: this is the plan, not the valve. Others may open valves by hand, and spray drifts.")}
      </p>
    </section>
  );
}

function Place({ night, subject }: { night: LoadedNight; subject: Subject }) {
  if ("part" in subject)
    return (
      <p class="dry-place">
        <bdi class="place">{subject.part}</bdi>
      </p>
    );
  const station = night.document.stations.get(subject.station);
  return (
    <p class="dry-place">
      <StationTag number={station?.number ?? subject.station} brass />
      <bdi class="place">{station?.name ?? ""}</bdi>
    </p>
  );
}

/** `Dry until 01:17, then water for 37 min. Next 02:40.` */
function firstWords(night: LoadedNight, coming: readonly Wet[], from: number): string {
  const at = (instant: number) => timeAt(night.clock, instant);
  const [first, next] = coming;
  if (!first) return t("Dry until this night ends, {time}.", { time: at(night.sheet.ends) });
  const length = duration(first.end - first.start);
  if (first.start <= from) {
    const until = at(first.end);
    return next
      ? t("Water until {time}. Next {next}.", { time: until, next: at(next.start) })
      : t("Water until {time}, then dry.", { time: until });
  }
  const words = { time: at(first.start), duration: length };
  return next
    ? t("Dry until {time}, then water for {duration}. Next {next}.", { ...words, next: at(next.start) })
    : t("Dry until {time}, then water for {duration}, then dry.", words);
}

function Spells({ night, spans, from }: { night: LoadedNight; spans: readonly Wet[]; from: number }) {
  const at = (instant: number) => timeAt(night.clock, instant);
  const between = (start: number, end: number) => t("{start}–{end}", { start: at(start), end: at(end) });
  const edges = [from, ...spans.map((span) => span.end)];
  const ends = [...spans.map((span) => span.start), night.sheet.ends];
  return (
    <ol class="spells">
      {ends.flatMap((end, index) => {
        const start = edges[index] ?? from;
        const wet = spans[index];
        return [
          end > start ? (
            <Spell key={`d${start}`} name={t("Dry")} span={between(start, end)} long={end - start} />
          ) : null,
          wet ? (
            <Spell
              key={`w${wet.start}`}
              name={t("Water")}
              span={between(wet.start, wet.end)}
              long={wet.end - wet.start}
              wet
            />
          ) : null,
        ];
      })}
    </ol>
  );
}

function Spell({ name, span, long, wet = false }: { name: string; span: string; long: number; wet?: boolean }) {
  return (
    <li class={wet ? "spell spell-wet" : "spell"}>
      <span class="spell-name">{name}</span>
      <bdi class="spell-span">{span}</bdi>
      <span class="spell-long">{duration(long)}</span>
    </li>
  );
}
