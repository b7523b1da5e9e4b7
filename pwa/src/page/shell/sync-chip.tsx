/** Whether this phone and the server hold the same: a bowl, and always words. It leads to the changes. */

import { line, unsentCount } from "../store/queries";
import { go } from "../way/way";
import { FillBowl } from "./fill-bowl";
import { lineFill, lineWords, wholeLine } from "./line-words";

export function SyncChip() {
  const whole = wholeLine(line.value, unsentCount.value);
  return (
    <button type="button" class="sync-chip" data-line={whole.now} onClick={() => go("changes")}>
      <FillBowl fill={lineFill(whole.now)} />
      <span>{lineWords(whole, unsentCount.value)}</span>
    </button>
  );
}
