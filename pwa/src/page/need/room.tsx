/** The room of the water need: what plants used, what that asks of the programs, and what it costs. */

import "../look/controls.css";
import "../look/lists.css";
import "../look/need.css";
import { Patterns } from "../picture/patterns";
import { copy, site } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { Overview } from "./overview";
import { partAt } from "./parts";

export function Room({ words }: { words: string[] }) {
  const [word, ...rest] = words;
  const part = partAt(word);
  return (
    <main class="need">
      <Patterns />
      <RoomHead
        title={part?.title() ?? t("Water need")}
        sub={<bdi>{site.value?.name ?? ""}</bdi>}
        back={part ? "need" : "more"}
      />
      {copy.value ? (
        <div class="need-body">{part ? <part.Body key={words.join("/")} words={rest} /> : <Overview />}</div>
      ) : (
        <p class="need-note">{t("No site is on this phone yet.")}</p>
      )}
    </main>
  );
}
