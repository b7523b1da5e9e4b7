/** The list of what this room holds. */

import { copy } from "../store/queries";
import { go } from "../way/way";
import { underWayWords } from "../wet-check/under-way";
import { t } from "../words/catalogue";
import { PAGES, type Page } from "./pages";

export function Menu({ here }: { here: string | undefined }) {
  const shown = Object.entries(PAGES).filter(([, page]) => page.about && (page.for?.() ?? true));
  const own = shown.filter(([, page]) => page.own);
  const others = shown.filter(([, page]) => !page.own);
  const entries = (pages: typeof shown) =>
    pages.map(([word, page]) => <PageEntry key={word} word={word} page={page} here={word === here} />);
  return (
    <nav class="more-menu" aria-label={t("Pages")}>
      <ul>
        <Entry
          title={t("You and this phone")}
          about={t("Name, role, site")}
          here={here === undefined}
          first
          onGo={() => go("more")}
        />
        {entries(own)}
        {copy.value ? (
          <Entry
            title={t("Site records")}
            about={t("Supplies, controllers, programs, windows")}
            here={false}
            onGo={() => go("site")}
          />
        ) : null}
        {copy.value ? (
          <Entry
            title={t("Water need")}
            about={t("What plants need, suggestions, budget, drought")}
            here={false}
            onGo={() => go("need")}
          />
        ) : null}
        {copy.value ? (
          <Entry title={t("Wet check and repairs")} about={walkAbout()} here={false} onGo={() => go("wet-check")} />
        ) : null}
        {entries(others)}
      </ul>
    </nav>
  );
}

function walkAbout(): string {
  const far = underWayWords();
  return far
    ? t("A wet check is under way: {far}", { far })
    : t("Walk the stations with water on; see to what is broken");
}

function PageEntry({ word, page, here }: { word: string; page: Page; here: boolean }) {
  return <Entry title={page.title()} about={page.about?.() ?? ""} here={here} onGo={() => go("more", word)} />;
}

interface EntryProps {
  title: string;
  about: string;
  here: boolean;
  /** It stands for the room itself, which on a phone is where the list is. */
  first?: boolean;
  onGo: () => void;
}

function Entry({ title, about, here, first, onGo }: EntryProps) {
  return (
    <li class={first ? "more-entry-first" : undefined}>
      <button type="button" class="more-entry" aria-current={here ? "page" : undefined} onClick={onGo}>
        <span class="more-entry-title">{title}</span>
        <span class="more-entry-about">{about}</span>
      </button>
    </li>
  );
}
