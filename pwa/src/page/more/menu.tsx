/** The list of what this room holds. */

import { copy } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { PAGES, type Page } from "./pages";

export function Menu({ here }: { here: string | undefined }) {
  const shown = Object.entries(PAGES).filter(([, page]) => page.about && (page.for?.() ?? true));
  return (
    <nav class="more-menu" aria-label={t("Pages")}>
      <ul>
        <Entry
          word={undefined}
          title={t("You and this phone")}
          about={t("Name, role, site")}
          here={here === undefined}
        />
        {shown.map(([word, page]) => (
          <PageEntry key={word} word={word} page={page} here={word === here} />
        ))}
        {copy.value ? (
          <li>
            <button type="button" class="more-entry" onClick={() => go("site")}>
              <span class="more-entry-title">{t("Site records")}</span>
              <span class="more-entry-about">{t("Supplies, controllers, programs, windows")}</span>
            </button>
          </li>
        ) : null}
      </ul>
    </nav>
  );
}

function PageEntry({ word, page, here }: { word: string; page: Page; here: boolean }) {
  return <Entry word={word} title={page.title()} about={page.about?.() ?? ""} here={here} />;
}

interface EntryProps {
  word: string | undefined;
  title: string;
  about: string;
  here: boolean;
}

function Entry({ word, title, about, here }: EntryProps) {
  return (
    <li class={word === undefined ? "more-entry-first" : undefined}>
      <button
        type="button"
        class="more-entry"
        aria-current={here ? "page" : undefined}
        onClick={() => (word === undefined ? go("more") : go("more", word))}
      >
        <span class="more-entry-title">{title}</span>
        <span class="more-entry-about">{about}</span>
      </button>
    </li>
  );
}
