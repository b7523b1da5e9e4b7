/** What somebody has set of a drought and not kept: it outlives a look away, and so do the ids of its new rules. */

import { draftOf, putDraft } from "../../edits/drafts";
import { newId } from "../../store/ids";
import type { Change } from "../../store/shapes";
import { changesTo, type Drought, type Setting, settingOf } from "./drought";

const DRAFT = "need/drought";

interface Kept extends Setting {
  ids: Record<string, string>;
}

export interface Drafted {
  setting: Setting;
  changes: Change[];
}

export function draftedOn(drought: Drought | null, night: string): Drafted {
  const kept = draftOf<Kept>(DRAFT);
  const { starts, ends, shares } = kept ?? settingOf(drought, night);
  const setting = { starts, ends, shares };
  return { setting, changes: kept ? changesTo(drought, kept, (priority) => kept.ids[priority] ?? "") : [] };
}

/** Null, or what stands already: there is nothing to keep. */
export function putSetting(drought: Drought | null, night: string, setting: Setting | null): void {
  const stands = !setting || JSON.stringify(setting) === JSON.stringify(settingOf(drought, night));
  if (stands) putDraft(DRAFT, null);
  else putDraft(DRAFT, { ...setting, ids: idsFor(setting) });
}

function idsFor(setting: Setting): Record<string, string> {
  const ids = { ...draftOf<Kept>(DRAFT)?.ids };
  for (const priority of Object.keys(setting.shares)) ids[priority] ??= newId();
  return ids;
}
