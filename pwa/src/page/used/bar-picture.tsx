/** Each line as a bar as long as its plan: what came, what is assumed, what was lost; and below it what nobody planned. */

import type { UsedLine } from "../line/api";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import type { By } from "./asking";
import { type Bar, barsOf } from "./bars";
import { lineName } from "./words";

export function Bars({ lines, by }: { lines: readonly UsedLine[]; by: By }) {
  if (lines.length === 0) return null;
  const bars = barsOf(lines);
  const has = (part: keyof Bar) => bars.some((bar) => Number(bar[part]) > 0);
  return (
    <figure class="used-picture">
      <div role="img" aria-label={t("Water line by line. The table below says the same in figures.")}>
        {bars.map((bar, place) => (
          <Line key={bar.key} bar={bar} line={lines[place]} by={by} />
        ))}
      </div>
      <figcaption class="used-keys">
        {has("delivered") ? <Key kind="delivered" name={t("Delivered")} /> : null}
        {has("assumed") ? <Key kind="assumed" name={t("Assumed")} /> : null}
        {has("lost") ? <Key kind="lost" name={t("Lost")} /> : null}
        {has("beyond") ? <Key kind="beyond" name={t("Beyond the plan")} /> : null}
        <span>{t("Each bar is as long as what was planned.")}</span>
      </figcaption>
    </figure>
  );
}

function Line({ bar, line, by }: { bar: Bar; line: UsedLine | undefined; by: By }) {
  if (!line) return null;
  return (
    <div class="used-line">
      <p class="used-line-name">
        <bdi>{lineName(line, by)}</bdi>
        <span>{volume(line.planned_l)}</span>
      </p>
      <div class="used-bar">
        <Part kind="delivered" share={bar.delivered} />
        <Part kind="assumed" share={bar.assumed} />
        <Part kind="lost" share={bar.lost} />
      </div>
      {bar.beyond > 0 ? (
        <div class="used-bar used-bar-beyond">
          <Part kind="beyond" share={bar.beyond} />
        </div>
      ) : null}
    </div>
  );
}

function Part({ kind, share }: { kind: string; share: number }) {
  return share > 0 ? <span class={`used-part used-${kind}`} style={{ inlineSize: `${share}%` }} /> : null;
}

function Key({ kind, name }: { kind: string; name: string }) {
  return (
    <span class="used-key">
      <span class={`used-sign used-${kind}`} aria-hidden="true" />
      {name}
    </span>
  );
}
