/** Tells screen readers, politely, when the line to the server comes or goes. */

import { line, unsentCount } from "../store/queries";
import { lineWords } from "./line-words";
import { useSettled } from "./use-settled";

export function Announcer() {
  const now = useSettled(line.value.now);
  return (
    <p class="unseen" role="status" aria-live="polite" data-line={now}>
      {now === "starting" ? "" : lineWords({ ...line.peek(), now }, unsentCount.peek())}
    </p>
  );
}
