/** What waits for a person: a row for each set, what has to be decided first standing first. */

import { go, place } from "../way/way";
import { t } from "../words/catalogue";
import { setWords } from "./edit-words";
import { names, sets } from "./ground";
import { nameOf } from "./people";
import type { WaitingSet } from "./sets";
import { told } from "./told";
import { trayTitle } from "./tray-words";

export function WaitingList() {
  const found = sets.value;
  return (
    <section aria-labelledby="waiting-title">
      <div class="list-head">
        <h2 id="waiting-title">{t("To decide")}</h2>
      </div>
      {found.length === 0 ? (
        <p class="list-none">{t("Nothing waits for a decision.")}</p>
      ) : (
        <ul class="rows" data-list="waiting">
          {found.map((set) => (
            <li key={`${set.tray} ${set.id}`}>
              <WaitingRow set={set} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function WaitingRow({ set }: { set: WaitingSet }) {
  const [first] = set.atFault;
  const here = place.value.words[0] === "waiting" && place.value.words[1] === set.id;
  if (!first) return null;
  return (
    <button
      type="button"
      class={`row change-row${here ? " row-chosen" : ""}`}
      data-tray={set.tray}
      aria-current={here ? "true" : undefined}
      onClick={() => go("changes", "waiting", set.id)}
    >
      <span class="row-what">
        <span class="change-tray">{trayTitle(set.tray)}</span>
        <span class="row-name">
          <bdi>{setWords(set.items.map(told), names.value)}</bdi>
        </span>
        <span class="row-under">{nameOf(String(first.edit.person ?? ""))}</span>
      </span>
      <span class="row-end" aria-hidden="true">
        <svg class="go-on" aria-hidden="true" viewBox="0 0 12 20">
          <path d="M2 2L10 10L2 18" />
        </svg>
      </span>
    </button>
  );
}
