/** Whether this phone and the server hold the same: a bowl, and always words. It leads to the changes. */

import { line, unsent } from "../store/queries";
import { go } from "../way/way";
import { FillBowl } from "./fill-bowl";
import { lineFill, lineWords } from "./line-words";

export function SyncChip() {
  return (
    <button type="button" class="sync-chip" data-line={line.value.now} onClick={() => go("changes")}>
      <FillBowl fill={lineFill(line.value.now)} />
      <span>{lineWords(line.value, unsent.value.length)}</span>
    </button>
  );
}
