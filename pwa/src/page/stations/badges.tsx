/** What of a record is not in force yet: unsent, on its way, or waiting for somebody to decide. */

import { type SetState, stateWords } from "../edits/set-state";
import { unsent, waiting } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";

export function Badges({ table, record }: { table: string; record: string }) {
  const own = unsent.value.filter((edit) => edit.table === table && edit.record === record);
  const stuck = waiting.value.filter((one) => one.open && one.edit.table === table && one.edit.record === record);
  const first = own[0];
  return (
    <>
      {first ? <Badge state={first.sent ? "sending" : "unsent"} /> : null}
      {stuck.map((one) => (
        <Badge key={one.edit.id} state={one.tray} open />
      ))}
    </>
  );
}

function Badge({ state, open = false }: { state: SetState; open?: boolean }) {
  return (
    <div class={`badge${open ? " badge-open" : ""}`}>
      <p>{stateWords(state)}</p>
      {open ? (
        <button type="button" class="button" onClick={() => go("changes")}>
          {t("See Changes")}
        </button>
      ) : null}
    </div>
  );
}
