/** What only the server has, on a screen: fetched when the screen opens, and again once there is a line. */

import { useEffect } from "preact/hooks";
import { line } from "../store/queries";
import type { Known, KnownAnswer } from "./known-list";

/** `may`: whether the server would answer this reader at all. */
export function useKnown<Items>(list: KnownAnswer<Items>, may = true): Known<Items> {
  const heard = line.value.spoke !== null && line.value.now !== "no_signal";
  useEffect(() => {
    if (may) void list.load();
  }, [list, heard, may]);
  return list.state.value;
}
