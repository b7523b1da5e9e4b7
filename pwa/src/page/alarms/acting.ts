/** What people do about an alarm: they have seen it, say what it was, or that it is over. With or without signal. */

import { journalChanged } from "../journal/following";
import type { Said } from "../journal/shapes";
import { tell } from "../journal/telling";
import { LineFault, sendJson } from "../line/fetching";
import { store } from "../sync/phone";
import { language } from "../words/reader";
import { putAlarm } from "./kept";
import type { Alarm, Explained } from "./shapes";

export type Act =
  | { kind: "seen" }
  | { kind: "explained"; explained: Explained; text: string }
  | { kind: "ended"; text: string };

/** Done on the server, or without one kept on this phone and told later. Raises `LineFault` where the server would not
 * have it, and `KeepFault` where the phone keeps nothing. */
export async function act(alarm: string, what: Act): Promise<void> {
  const opened = store.peek();
  if (!opened) return;
  const path = ["/api/sites", opened.site, "alarms", alarm, what.kind].map((part, place) =>
    place ? encodeURIComponent(part) : part,
  );
  try {
    const changed = await sendJson<Alarm>("PUT", path.join("/"), bodyOf(what), language.peek());
    if (opened.database) await putAlarm(opened.database, { owner: opened.owner, site: opened.site }, changed);
    await journalChanged();
  } catch (fault) {
    if (!(fault instanceof LineFault) || !mayBeLater(fault.status)) throw fault;
    await tell(entryOf(alarm, what));
  }
}

function mayBeLater(status: number): boolean {
  return status === 0 || status >= 500 || [401, 408, 425, 429].includes(status);
}

function bodyOf(what: Act): Record<string, string> {
  if (what.kind === "explained") return { kind: what.explained, text: what.text };
  return what.kind === "ended" ? { text: what.text } : {};
}

/** As the journal has it. */
export function entryOf(alarm: string, what: Act): Said {
  if (what.kind === "seen") return { kind: "alarm_seen", alarm };
  const text = what.text ? { text: what.text } : {};
  if (what.kind === "ended") return { kind: "alarm_ended", alarm, ...text };
  return { kind: "alarm_explained", alarm, explained: what.explained, ...text };
}
