/** Hands what the phone holds of journal, alarms and accepted rests to the screens: the only place that sets their signals. */

import { batch } from "@preact/signals";
import { alarmsOf } from "../alarms/kept";
import { alarms } from "../alarms/queries";
import { acceptedOf } from "../catch-up/kept";
import { accepted } from "../catch-up/queries";
import { openAlarms, valvesTold } from "../store/queries";
import type { Store } from "../store/store";
import { entriesOf, followedBy, toldOf } from "./kept";
import { entries, followed, told } from "./queries";
import { NOTHING_FOLLOWED } from "./shapes";

let shown: { opened: Store; entries: number | null } | null = null;

/** Read it anew; entries, which may be many, only where some came. Raises `StorageFault`. */
export async function showJournal(opened: Store): Promise<void> {
  const { database } = opened;
  if (!database) {
    batch(() => {
      entries.value = [];
      told.value = [];
      accepted.value = [];
      followed.value = NOTHING_FOLLOWED;
    });
    return;
  }
  const [own, how, known, rests] = await Promise.all([
    toldOf(database, opened.owner),
    followedBy(database, opened),
    alarmsOf(database, opened),
    acceptedOf(database, opened),
  ]);
  const same = shown?.opened === opened && shown.entries === how.entries;
  const arrived = same ? entries.peek() : await entriesOf(database, opened);
  shown = { opened, entries: how.entries };
  batch(() => {
    entries.value = arrived;
    valvesTold.value = arrived?.some((entry) => entry.kind === "opened") ?? false;
    told.value = own;
    accepted.value = rests;
    followed.value = how;
    alarms.value = known;
    openAlarms.value = known.filter((alarm) => alarm.ended === null).length;
  });
}
