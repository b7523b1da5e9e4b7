/** What had to be taken for granted, since nobody told of it. */

import type { Used } from "../line/api";
import { tn } from "../words/catalogue";

export function Taken({ said }: { said: Used["said"] }) {
  if (said.length === 0) return null;
  return (
    <details class="as-table">
      <summary>{tn("{count} thing taken for granted", "{count} things taken for granted", said.length)}</summary>
      <ul>
        {said.map(({ detail }) => (
          <li key={detail} class="used-row">
            {detail}
          </li>
        ))}
      </ul>
    </details>
  );
}
