/** What only the server has, on a screen: fetched when the screen opens, and again once there is a line. */

import { useEffect } from "preact/hooks";
import { line } from "../store/queries";
import type { Known, KnownAnswer } from "./known-list";

export function useKnown<Items>(list: KnownAnswer<Items>): Known<Items> {
  const heard = line.value.spoke !== null && line.value.now !== "no_signal";
  useEffect(() => {
    void list.load();
  }, [list, heard]);
  return list.state.value;
}
