/** The room More: who uses this phone, its settings, the team, help. On a desk the list stands beside the page. */

import "../look/more.css";
import "../look/people.css";
import { site } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { Menu } from "./menu";
import { Overview } from "./overview";
import { pageAt } from "./pages";

export function Room({ words }: { words: string[] }) {
  const [word, ...rest] = words;
  const page = pageAt(word);
  const back = page ? ({ back: "more" } as const) : {};
  return (
    <main class={page ? "more more-inside" : "more"}>
      <RoomHead title={page?.title() ?? t("More")} sub={<bdi>{site.value?.name ?? ""}</bdi>} {...back} />
      <div class="more-body">
        <Menu here={page ? word : undefined} />
        <div class="more-page">{page ? <page.Body key={words.join("/")} words={rest} /> : <Overview />}</div>
      </div>
    </main>
  );
}
