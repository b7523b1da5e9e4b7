/** Why a night is as it is: what holds its end, how full it is, what is shut, what did not fit; and the way to its picture. */

import { ask } from "../night/night";
import { sayFor, timeAt } from "../night/reading";
import type { Program } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";
import { longDay } from "../words/moments";
import { volume } from "../words/units";
import { type AheadNight, closedInFree, fullness, mostAtOnce, shareOf, wateredTwice } from "./almanac";
import type { Outlook } from "./outlook";
import { limitOf } from "./silhouette";
import { SupplyShares } from "./supply-shares";
import { closureLine } from "./telling";

interface NightWhyProps {
  night: AheadNight;
  outlook: Outlook;
  program?: Program | undefined;
}

export function NightWhy({ night, outlook, program }: NightWhyProps) {
  return (
    <section class="night-why" aria-label={t("Night of {date}", { date: longDay(night.date) })}>
      <button type="button" class="button night-go" onClick={() => show(night.date)}>
        {t("Show that night")}
      </button>
      <div class="night-why-parts">
        <Said night={night} outlook={outlook} />
        {program ? null : <SupplyShares night={night} outlook={outlook} />}
        <DidNotFit night={night} program={program} />
        <Shut night={night} />
        <ToKnow night={night} />
      </div>
    </section>
  );
}

/** The night's own picture is in the first room. */
export function show(date: string): void {
  ask(date);
  go("tonight", date);
}

function Said({ night, outlook }: { night: AheadNight; outlook: Outlook }) {
  const { sheet, clock } = night;
  const full = fullness(sheet, limitOf(outlook.groups));
  const most = mostAtOnce(sheet.runs);
  const lines = [
    sheet.bound ? sayFor(night, sheet.bound.holder) : "",
    sheet.bound?.relief ? sayFor(night, sheet.bound.relief) : "",
    full === null
      ? ""
      : t("{percent} % of what the supplies could give in the open hours.", { percent: figure(full * 100, 0) }),
    most
      ? tn(
          "At most {count} program waters at once, at {time}.",
          "At most {count} programs water at once, at {time}.",
          most.count,
          {
            time: timeAt(clock, most.at),
          },
        )
      : "",
    ...wateredTwice(sheet).map((one) =>
      t("{station} is watered by more than one program.", { station: night.document.nameOf("station", one.station) }),
    ),
    night.from === "phone" ? t("Worked out on this phone, with your unsent edits.") : "",
    night.behind ? t("The latest edits are not counted yet.") : "",
  ].filter(Boolean);
  return lines.length === 0 ? null : (
    <ul class="night-said">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

function DidNotFit({ night, program }: { night: AheadNight; program?: Program | undefined }) {
  const { shortfalls } = shareOf(night.sheet, program?.id);
  if (shortfalls.length === 0) return null;
  return (
    <section>
      <h2 class="ahead-short">{t("Did not fit")}</h2>
      <ul>
        {shortfalls.map((item) => {
          const station = night.document.stations.get(item.station);
          return (
            <li key={item.turn} class="night-short">
              <StationTag number={station?.number ?? item.station} />
              <span>
                <bdi>{station?.name ?? ""}</bdi> <b class="ahead-short">{volume(item.volume_l)}</b>
                <br />
                {sayFor(night, item.why)}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Shut({ night }: { night: AheadNight }) {
  const closed = closedInFree(night.sheet);
  if (closed.length === 0) return null;
  return (
    <section>
      <h2>{t("Closures")}</h2>
      <ul>
        {closed.map((span) => (
          <li key={`${span.closure} ${span.start}`}>
            <bdi>{closureLine(night, span)}</bdi>
          </li>
        ))}
      </ul>
    </section>
  );
}

function ToKnow({ night }: { night: AheadNight }) {
  if (night.sheet.notices.length === 0) return null;
  return (
    <section>
      <h2>{t("Notices")}</h2>
      <ul>
        {night.sheet.notices.map((notice, index) => (
          <li key={`${notice.code} ${index}`}>{sayFor(night, notice)}</li>
        ))}
      </ul>
    </section>
  );
}
