/** What of the journal is looked for: a sort of thing, a place, words. */

import { PickList } from "../controls/pick-list";
import { TextSearch } from "../records/text-search";
import type { SiteDocument } from "../site/document";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { type About, SORTS } from "./choosing";
import { looked } from "./looking";
import { sortWords } from "./words";

const EVERYWHERE = "";

export function Filters({ document }: { document: SiteDocument }) {
  const { sort, about, text } = looked.value;
  return (
    <section class="journal-filters" aria-label={t("What is looked for")}>
      <TextSearch value={text} onChange={(typed) => put({ text: typed })} />
      <div class="journal-picks">
        <PickList
          label={t("What happened")}
          value={sort}
          options={SORTS.map((one) => ({ value: one, label: sortWords(one) }))}
          onChange={(picked) => put({ sort: picked })}
        />
        <PickList
          label={t("Where")}
          value={about ? `${about.table}/${about.id}` : EVERYWHERE}
          options={[{ value: EVERYWHERE, label: t("At the whole site") }, ...places(document)]}
          onChange={(picked) => lookAt(aboutOf(picked))}
        />
      </div>
    </section>
  );
}

function put(change: Partial<typeof looked.value>): void {
  looked.value = { ...looked.peek(), ...change };
}

/** The place stands in the address, so that a link from a station's page leads to it. */
function lookAt(about: About | null): void {
  put({ about });
  if (about) refine("more", "journal", about.table, about.id);
  else refine("more", "journal");
}

function aboutOf(picked: string): About | null {
  const [table, ...id] = picked.split("/");
  return table === "station" || table === "supply" ? { table, id: id.join("/") } : null;
}

export function places(document: SiteDocument): { value: string; label: string }[] {
  return [
    ...[...document.supplies.values()].map((one) => ({ value: `supply/${one.id}`, label: one.name })),
    ...[...document.stations.values()].map((one) => ({
      value: `station/${one.id}`,
      label: `${one.number} ${one.name}`,
    })),
  ];
}
