/** Another like this: a record, and the turns of a program, under ids of their own. */

import type { SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import { another, type Draft, EMPTY, withRecord } from "./draft";
import { turnsOf } from "./order";
import { type Records, textOf } from "./records";

export function copyOf(records: Records, record: SiteRecord, newId: () => string): Draft {
  const copy = another(record, newId(), renamed(record));
  const draft = withRecord(EMPTY, copy);
  if (record.table !== "programs") return draft;
  return turnsOf(records, record.id).reduce(
    (next, turn) => withRecord(next, another(turn, newId(), { program: copy.id })),
    draft,
  );
}

/** What has to differ: a name can be told apart, a number and a letter are for the reader to choose. */
function renamed(record: SiteRecord): Record<string, unknown> {
  const name = textOf(record, "name");
  const named = name ? { name: t("{name}, copy", { name }) } : {};
  if (record.table === "stations") return { ...named, number: "" };
  return record.table === "programs" ? { ...named, letter: "" } : named;
}
