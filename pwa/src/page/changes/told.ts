/** Edits from wherever they lie, in the one shape that is put into words. */

import type { EditKind, Waiting } from "../store/shapes";
import type { PastEdit } from "./book";
import type { Told } from "./edit-words";

export function told({ edit }: Waiting): Told {
  return {
    kind: edit.kind as EditKind,
    table: edit.table,
    record: edit.record,
    field: edit.field,
    was: edit.was,
    now: edit.now,
  };
}

/** In the history what counts is what was in force, not what its editor saw. */
export function toldPast(edit: PastEdit): Told {
  return { ...edit, was: edit.outcome === "taken" ? edit.before : edit.was };
}
