/** Faults as sentences: which record, which field, and what is wrong in the reader's units. */

import type { KeepFault } from "../edits/commands";
import { t } from "../words/catalogue";
import { type Message, type Names, type Param, say } from "../words/say";
import type { Fault } from "./checking";
import { fieldLabel } from "./field-labels";
import { recordTitle } from "./record-words";
import type { Records } from "./records";

export function faultWords(fault: Fault, records: Records): string {
  return say(fault as { params: Record<string, Param> } & Message, namesIn(records));
}

/** With the names of record and field before it. */
export function faultLine(fault: Fault, records: Records): string {
  const record = recordTitle(records.get(fault.table, fault.record), records);
  const words = faultWords(fault, records);
  if (!fault.field) return t("{record}: {fault}", { record, fault: words });
  return t("{record}, {field}: {fault}", { record, field: fieldLabel(fault.table, fault.field), fault: words });
}

function namesIn(records: Records): Names {
  return {
    name: (kind, id) => recordTitle(records.get(tableOf(kind), id), records),
    time: String,
  };
}

function tableOf(kind: string): string {
  if (kind === "supply") return "supplies";
  return kind === "site" || kind === "asked" ? kind : `${kind}s`;
}

export function keepFaultWords(why: KeepFault["why"]): string {
  const words: Record<KeepFault["why"], () => string> = {
    storage: () =>
      t("This phone could not store the edit. Nothing you typed is lost: make room on the phone, then keep it again."),
    outbox_full: () => t("Too many edits wait to be sent. Nothing you typed is lost: keep it once there is signal."),
    not_yours: () => t("Your role at this site does not allow this edit. Ask a manager."),
    no_site: () => t("No site is on this phone yet."),
  };
  return words[why]();
}
