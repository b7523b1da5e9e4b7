/** The other edits of a set: they stand or fall with those at fault. */

import { t } from "../words/catalogue";
import { editWords } from "./edit-words";
import { names } from "./ground";
import type { WaitingSet } from "./sets";
import { told } from "./told";

export function GoesWithIt({ set }: { set: WaitingSet }) {
  const others = set.items.filter((one) => one !== set.atFault[0]);
  if (others.length === 0) return null;
  return (
    <section class="goes-with-it">
      <h3>{t("These edits were made with it and follow it:")}</h3>
      <ul>
        {others.map((one) => (
          <li key={one.edit.id}>
            <bdi>{editWords(told(one), names.value)}</bdi>
          </li>
        ))}
      </ul>
    </section>
  );
}
