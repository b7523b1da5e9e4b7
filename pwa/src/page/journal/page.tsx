/** The journal of a site: what happened, night by night, told by people, controllers and the watch. */

import "../look/controls.css";
import "../look/lists.css";
import "../look/records.css";
import "../look/journal.css";
import { useEffect, useState } from "preact/hooks";
import { copy, mayEdit, mayNote, site } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { AsidePage } from "./aside-page";
import { BringPage } from "./bring-page";
import type { About } from "./choosing";
import { EntryList } from "./entry-list";
import { Filters } from "./filters";
import { followJournal } from "./following";
import { looked } from "./looking";
import { NoteForm } from "./note-form";
import { ReportersPage } from "./reporters-page";

export function JournalPage({ words: [word, id] }: { words: string[] }) {
  if (word === "aside") return <AsidePage />;
  if (word === "bring") return <BringPage />;
  if (word === "reporters") return <ReportersPage />;
  return <Journal about={(word === "station" || word === "supply") && id ? { table: word, id } : null} />;
}

function Journal({ about }: { about: About | null }) {
  const key = about ? `${about.table}/${about.id}` : "";
  useEffect(() => {
    followJournal();
    looked.value = { ...looked.peek(), about };
  }, [key]);
  const document = site.value;
  if (!document) return <p class="more-note">{t("No site is on this phone yet.")}</p>;
  return (
    <div class="journal">
      {mayNote.value ? <Write document={document} about={about} /> : null}
      {mayEdit.value ? <Ways /> : null}
      <Filters document={document} />
      <EntryList document={document} />
    </div>
  );
}

function Write(props: Parameters<typeof NoteForm>[0]) {
  const [open, setOpen] = useState(false);
  return open ? (
    <NoteForm {...props} />
  ) : (
    <button type="button" class="button button-strong journal-write" onClick={() => setOpen(true)}>
      {t("Write a note")}
    </button>
  );
}

function Ways() {
  return (
    <div class="more-ways">
      <button type="button" class="button" onClick={() => go("more", "journal", "bring")}>
        {t("Bring in a CSV file")}
      </button>
      {copy.value?.role === "manager" ? (
        <>
          <button type="button" class="button" onClick={() => go("more", "journal", "aside")}>
            {t("What was kept aside")}
          </button>
          <button type="button" class="button" onClick={() => go("more", "journal", "reporters")}>
            {t("Who reports")}
          </button>
        </>
      ) : null}
    </div>
  );
}
