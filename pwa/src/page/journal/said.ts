/** What an entry of the journal says, line by line. */

import type { Alarm } from "../alarms/shapes";
import { sentenceWords } from "../alarms/words";
import type { SiteDocument } from "../site/document";
import type { Happened } from "./queries";

/** The server's words in the reader's language, units and clock, anybody else's as they were written; and which alarm it
 * is about, where that does not follow from them. `alarms`: those that this phone knows. */
export function saidLines(entry: Happened, document: SiteDocument, alarms: readonly Alarm[]): string[] {
  const own = entry.said ? sentenceWords(entry.said, document) : (entry.text ?? "");
  const alarm = entry.alarm ? alarms.find((one) => one.id === entry.alarm) : undefined;
  const about = alarm ? sentenceWords(alarm.said, document) : "";
  if (entry.kind !== "alarm_opened") return [own, about].filter(Boolean);
  // What was told before messages were kept is in the server's language alone: there the alarm itself says it.
  const words = entry.said ? own : about || own;
  return words ? [words] : [];
}
