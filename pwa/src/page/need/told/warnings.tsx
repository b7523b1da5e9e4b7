/** What is to be said about the figures, each with what can be done about it. */

import { go } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import type { Message } from "../../words/say";
import { sayNeed } from "./names";
import { remedyFor } from "./remedies";

interface WarningsProps {
  messages: readonly Message[];
}

const PLACE = "need-warnings";

/** Above the figures: how much there is to look at, and the way down to it. */
export function WarningsAhead({ messages }: WarningsProps) {
  if (messages.length === 0) return null;
  return (
    <button
      type="button"
      class="button need-ahead"
      onClick={() => document.getElementById(PLACE)?.scrollIntoView({ block: "start" })}
    >
      {tn("{count} thing to look at", "{count} things to look at", messages.length)}
    </button>
  );
}

export function NeedWarnings({ messages }: WarningsProps) {
  if (messages.length === 0) return null;
  return (
    <section class="need-warnings" id={PLACE} aria-labelledby={`${PLACE}-title`}>
      <h2 id={`${PLACE}-title`}>{t("To look at")}</h2>
      <ul>
        {messages.map((message) => (
          <Warning key={`${message.code} ${JSON.stringify(message.params)}`} message={message} />
        ))}
      </ul>
    </section>
  );
}

function Warning({ message }: { message: Message }) {
  const remedy = remedyFor(message);
  const way = remedy?.way;
  return (
    <li class="need-warning" data-code={message.code}>
      <p class="need-warning-what">{sayNeed(message)}</p>
      {remedy ? <p>{remedy.words}</p> : null}
      {way ? (
        <button type="button" class="button" onClick={() => go(way.room, ...way.words)}>
          {way.says}
        </button>
      ) : null}
    </li>
  );
}
