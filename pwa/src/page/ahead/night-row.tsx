/** One night of the list: its date, its silhouette, when it ends and how much water it takes. A tap says why. */

import { timeAt } from "../night/reading";
import type { Program } from "../site/document";
import { catalogue, t } from "../words/catalogue";
import { volume } from "../words/units";
import { type AheadNight, shareOf } from "./almanac";
import { dayParts } from "./day-parts";
import { NightWhy } from "./night-why";
import { type Outlook, opened } from "./outlook";
import { Silhouette } from "./silhouette-picture";
import { notesOf } from "./telling";
import { bareVolume } from "./volumes";

interface NightRowProps {
  date: string;
  outlook: Outlook;
  width: number;
  program?: Program | undefined;
}

export function NightRow({ date, outlook, width, program }: NightRowProps) {
  const night = outlook.nights.get(date);
  const tonight = date === outlook.tonight;
  const open = opened.value === date;
  if (!night) return <UnknownRow date={date} />;
  return (
    <li class={`ahead-night${tonight ? " ahead-tonight" : ""}`} data-night={date}>
      <button
        type="button"
        class="ahead-row"
        aria-expanded={open}
        onClick={() => {
          opened.value = open ? null : date;
        }}
      >
        <Day date={date} tonight={tonight} />
        <span class="ahead-picture">
          <Silhouette
            night={night}
            outlook={outlook}
            width={width}
            mirrored={catalogue.value.direction === "rtl"}
            ground={tonight ? "slab" : "stone"}
            program={program}
          />
        </span>
        <Figures night={night} outlook={outlook} program={program} />
        <Notes night={night} outlook={outlook} program={program} />
      </button>
      {open ? <NightWhy night={night} outlook={outlook} program={program} /> : null}
    </li>
  );
}

interface PartProps {
  night: AheadNight;
  outlook: Outlook;
  program?: Program | undefined;
}

function Day({ date, tonight }: { date: string; tonight: boolean }) {
  const { day, month } = dayParts(date);
  return (
    <span class="ahead-day">
      <span class="ahead-date">{day}</span> <span class="ahead-month">{tonight ? t("tonight") : month}</span>
    </span>
  );
}

function Figures({ night, outlook, program }: PartProps) {
  const share = shareOf(night.sheet, program?.id);
  const last = program ? share.last : night.sheet.finish;
  return (
    <>
      <span class="ahead-finish">
        <span class="unseen">{last === null ? t("Runs nothing") : t("Ends")} </span>
        {last === null ? <span aria-hidden="true">–</span> : timeAt(night.clock, last)}{" "}
      </span>
      <span class="ahead-volume">
        <span aria-hidden="true" class="ahead-bare">
          {bareVolume(share.volumeL, outlook)}
        </span>
        <span class="ahead-whole">{volume(share.volumeL)} </span>
      </span>
    </>
  );
}

function Notes({ night, outlook, program }: PartProps) {
  const notes = program ? programNotes(night, program) : notesOf(night, outlook.usual);
  if (notes.length === 0) return null;
  return (
    <span class="ahead-notes">
      {notes.map((note) => (
        <span key={note.key} class={note.short ? "ahead-short" : undefined}>
          {note.text}{" "}
        </span>
      ))}
    </span>
  );
}

function programNotes(night: AheadNight, program: Program) {
  const share = shareOf(night.sheet, program.id);
  const notes: { key: string; text: string; short?: boolean }[] = [];
  if (share.first !== null)
    notes.push({ key: "first", text: t("First water {time}.", { time: timeAt(night.clock, share.first) }) });
  else if (share.shortfalls.length === 0) notes.push({ key: "none", text: t("No turn is due.") });
  if (share.shortL > 0)
    notes.push({ key: "short", short: true, text: t("{volume} short", { volume: volume(share.shortL) }) });
  return notes;
}

/** A night that nobody has worked out: said, not left out. */
function UnknownRow({ date }: { date: string }) {
  return (
    <li class="ahead-night ahead-unknown" data-night={date}>
      <div class="ahead-row">
        <Day date={date} tonight={false} />
        <span class="ahead-notes">{t("Not worked out yet.")}</span>
      </div>
    </li>
  );
}
