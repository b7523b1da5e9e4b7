/** The night as one line: brass where water runs at this place, bare where it is dry. Says nothing that the words do not. */

import type { Wet } from "../night/dry";
import type { LoadedNight } from "../night/night";
import { stretchOf } from "../picture/axis";
import { timeOfDay } from "../words/moments";

interface DryBarProps {
  night: LoadedNight;
  spans: readonly Wet[];
  instant: number | null;
}

export function DryBar({ night, spans, instant }: DryBarProps) {
  const { from, to } = stretchOf(night.sheet, night.clock);
  const share = (at: number) => Math.min(1, Math.max(0, (at - from) / (to - from))) * 100;
  return (
    <div class="dry-bar" aria-hidden="true">
      <div class="dry-line">
        {spans.map((span) => (
          <span
            key={span.start}
            class="dry-wet"
            style={{ insetInlineStart: `${share(span.start)}%`, inlineSize: `${share(span.end) - share(span.start)}%` }}
          />
        ))}
        {instant !== null && instant > from && instant < to ? (
          <span class="dry-now" style={{ insetInlineStart: `${share(instant)}%` }} />
        ) : null}
      </div>
      <span>{timeOfDay(night.clock.wall(from))}</span>
      <span>{timeOfDay(night.clock.wall(to))}</span>
    </div>
  );
}
