/** What is to be said about the figures, each with what can be done about it. */

import { go } from "../../way/way";
import type { Message } from "../../words/say";
import { sayNeed } from "./names";
import { remedyFor } from "./remedies";

interface WarningsProps {
  messages: readonly Message[];
  /** The heading above them. */
  title: string;
}

export function NeedWarnings({ messages, title }: WarningsProps) {
  if (messages.length === 0) return null;
  return (
    <section class="need-warnings" aria-label={title}>
      <h2>{title}</h2>
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
