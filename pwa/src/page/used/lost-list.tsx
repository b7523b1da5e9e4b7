/** Why planned water did not come, the most first. */

import type { UsedLine } from "../line/api";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import { whyWords } from "./words";

export function LostList({ total }: { total: UsedLine }) {
  if (total.lost.length === 0) return null;
  const lost = [...total.lost].sort((one, other) => other.volume_l - one.volume_l);
  return (
    <section aria-labelledby="used-lost">
      <div class="list-head">
        <h2 id="used-lost">{t("Why it did not come")}</h2>
        <p>{volume(total.lost_l)}</p>
      </div>
      <ul>
        {lost.map(({ why, volume_l }) => (
          <li key={why} class="used-row">
            <span>{whyWords(why)}</span>
            <b>{volume(volume_l)}</b>
          </li>
        ))}
      </ul>
    </section>
  );
}
