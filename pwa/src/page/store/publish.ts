/** Hands what the store holds to the screens: the only place that sets their signals. */

import { batch } from "@preact/signals";
import { comeAhead, type KnownNight, knownNights, nightAt, nights, tonightDate } from "../night/nights";
import { now } from "../night/now";
import type { AnsweredRow } from "./database";
import type { Kept } from "./kept";
import { inOrder, viewOf } from "./laying";
import { bytesOf, fullnessOf } from "./outbox";
import { besides, copy, decided, fullness, ownEdits, unsent, waiting } from "./queries";
import type { Beside, Waiting } from "./shapes";
import type { Store, What } from "./store";

const MOST_RECENT = 300;

/** Follow a store: the way to stop is handed back. */
export function publish(store: Store): () => void {
  show(store.kept, "copy");
  show(store.kept, "nights");
  showRecent(store);
  return store.listen((what, answered) => {
    show(store.kept, what);
    tellBesides(answered);
    if (answered.length || what === "copy") showRecent(store);
  });
}

function showRecent(store: Store): void {
  // What the phone cannot read any more is told by whoever writes; these rows are no more than a reminder.
  void store.recent(MOST_RECENT).then(
    (rows) => {
      ownEdits.value = rows.map(({ edit, answer, how, at }) => ({ edit, answer, how, at }));
    },
    () => undefined,
  );
}

function show(kept: Kept, what: What): void {
  batch(() => {
    if (what !== "nights") showCopy(kept);
    showNights(kept);
  });
}

function showCopy(kept: Kept): void {
  copy.value = kept.head && {
    site: kept.site,
    records: inOrder(kept, viewOf(kept)),
    format: kept.head.format,
    revision: kept.head.revision,
    role: kept.head.role,
    people: kept.head.people,
  };
  unsent.value = [...kept.outbox];
  const bytes = kept.outbox.reduce((sum, edit) => sum + bytesOf(edit), 0);
  fullness.value = fullnessOf(kept.outbox, bytes, Math.floor(Date.now() / 1000));
  const newest = [...kept.waiting.values()].sort((one, other) => madeAt(other) - madeAt(one));
  const settled = new Set([...kept.outbox, ...kept.overlaid].map((edit) => edit.settles));
  waiting.value = newest.filter((item) => item.open && !settled.has(item.edit.id));
  decided.value = newest.filter((item) => !item.open);
}

function madeAt(item: Waiting): number {
  return typeof item.edit.at === "number" ? item.edit.at : 0;
}

function showNights(kept: Kept): void {
  comeAhead.value = (kept.head?.planned ?? 0) > 0;
  nights.value = knownNights(nights.peek(), nightsOf(kept));
  tonightDate.value = nightAt(nights.peek(), now.peek(), kept.head?.tonight ?? "");
}

/** The server's nights. One is behind where the document has changed since, or is about to. */
function nightsOf(kept: Kept): Map<string, KnownNight> {
  const onTheWay = [...kept.outbox, ...kept.overlaid].some((edit) => edit.site === kept.site);
  const known = new Map<string, KnownNight>();
  for (const { night, sheet, clock, good_for } of kept.nights.values()) {
    const old = Math.max(good_for, kept.head?.planned ?? 0) < (kept.head?.revision ?? 0);
    known.set(night, { sheet, clock, from: "server", behind: onTheWay || old });
  }
  return known;
}

function tellBesides(answered: readonly AnsweredRow[]): void {
  const news = answered.flatMap((row): Beside[] => {
    const fields = row.answer?.beside ?? [];
    return fields.length ? [{ edit: row.edit, fields }] : [];
  });
  if (news.length) besides.value = [...news, ...besides.peek()];
}

/** News has been read. */
export function heardBesides(): void {
  besides.value = [];
}
