/** Whatever may send to a site with a token of its own: managers let one in, see when each was heard, and end it. */

import "../look/controls.css";
import "../look/more.css";
import "../look/people.css";
import "../look/senders.css";
import type { ComponentType } from "preact";
import { NeedsSignal } from "../more/needs-signal";
import { useKnown } from "../more/use-known";
import { copy } from "../store/queries";
import { LetIn } from "./let-in";
import type { MadeSender, Sender, SenderApi } from "./sender-api";
import { SenderRow } from "./sender-row";

/** One kind of them, and what is said of it. */
export interface Senders<One extends Sender> {
  api: SenderApi<One>;
  /** Their heading; absent: the room's own says it. */
  title?: () => string;
  forManagers: () => string;
  none: () => string;
  newName: () => string;
  newHint: () => string;
  letIn: () => string;
  /** What is known of one besides when it was heard. */
  facts?: (sender: One) => string[];
  Card: ComponentType<{ made: MadeSender; onDone: () => void }>;
}

export function SendersPage<One extends Sender>({ senders }: { senders: Senders<One> }) {
  const here = copy.value;
  if (here?.role !== "manager") return <p class="more-note">{senders.forManagers()}</p>;
  return <At site={here.site} senders={senders} />;
}

function At<One extends Sender>({ site, senders }: { site: string; senders: Senders<One> }) {
  const list = senders.api.list(site);
  const known = useKnown(list);
  const reload = () => void list.load();
  return (
    <div class="senders">
      {senders.title ? <h2 class="more-title">{senders.title()}</h2> : null}
      <NeedsSignal known={known} reload={reload} />
      <LetIn site={site} senders={senders} onMade={reload} />
      {known.items?.length === 0 ? <p class="more-note">{senders.none()}</p> : null}
      <ul class="more-list">
        {known.items?.map((sender) => (
          <SenderRow
            key={sender.id}
            sender={sender}
            facts={senders.facts?.(sender) ?? []}
            end={() => senders.api.end(site, sender.id)}
            onEnded={reload}
          />
        ))}
      </ul>
    </div>
  );
}
