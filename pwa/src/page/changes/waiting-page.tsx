/** One set that waits, with what can be done about it. */

import { refine } from "../way/way";
import { DecideView } from "./decide-view";
import { DisputeView } from "./dispute-view";
import { sets, setWith } from "./ground";
import { Lost } from "./lost";

export function WaitingPage({ id }: { id: string }) {
  const set = setWith(id);
  if (!set) return <Lost />;
  /** On to what waits next, or back to the room. */
  const done = () => {
    const next = sets.peek().find((other) => other.id !== set.id && other.tray === set.tray);
    if (next) refine("changes", "waiting", next.id);
    else refine("changes");
  };
  return set.tray === "disputed" ? (
    <DisputeView key={set.id} set={set} onSettled={done} />
  ) : (
    <DecideView key={set.id} set={set} onDone={done} />
  );
}
