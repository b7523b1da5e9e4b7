/** Last night, tonight and the thirteen nights after it, each a button away. */

import { useEffect, useRef } from "preact/hooks";
import { columnParts } from "../ahead/day-parts";
import { askedNight, nightsAround, turnTo } from "../night/turning";
import { t } from "../words/catalogue";
import { shortDay } from "../words/moments";

/** `base` is tonight's date. The night that is asked for is marked at once, also while it is still on its way. */
export function NightStrip({ base }: { base: string }) {
  const current = askedNight(base);
  const strip = useRef<HTMLElement>(null);
  useEffect(() => {
    const here = strip.current?.querySelector("[aria-current]");
    if (here) bringIntoView(strip.current, here);
  }, [current]);
  return (
    <nav class="nights" aria-label={t("Nights")} ref={strip}>
      {nightsAround(base).map((night) => (
        <button
          key={night}
          type="button"
          class={`night${night === base ? " night-tonight" : ""}`}
          data-night={night}
          aria-current={night === current ? "date" : undefined}
          onClick={() => turnTo(night)}
        >
          {night === base ? t("Tonight") : <Day night={night} />}
        </button>
      ))}
    </nav>
  );
}

/** Its name is read as one date; to the eye the weekday stands above the day. */
function Day({ night }: { night: string }) {
  const { weekday, day } = columnParts(night);
  return (
    <>
      <span class="unseen">{shortDay(night)}</span>
      <span aria-hidden="true">{weekday}</span>
      <span aria-hidden="true" class="night-day">
        {day}
      </span>
    </>
  );
}

/** Sideways alone: the page itself stays where it is. */
function bringIntoView(strip: Element | null, night: Element): void {
  if (!strip) return;
  const [outer, inner] = [strip.getBoundingClientRect(), night.getBoundingClientRect()];
  strip.scrollLeft += inner.left + inner.width / 2 - outer.left - outer.width / 2;
}
