/** The way to the figures as a table: the server's file where it answered, else one made here of what is shown. */

import { saveFile } from "../../changes/save-file";
import { copy } from "../../store/queries";
import { t } from "../../words/catalogue";
import { language } from "../../words/reader";
import { pathOf } from "./asking";
import type { Asked } from "./use-told";

interface TableWayProps<Found> {
  asked: Asked<Found>;
  /** The file's name, without its ending. */
  name: string;
  made: (found: Found) => string;
}

export function TableWay<Found>({ asked, name, made }: TableWayProps<Found>) {
  const { found, from, question } = asked;
  const site = copy.value?.site;
  if (!found || !site) return null;
  const file = `${name}.csv`;
  if (from === "server" && asked.live) {
    const path = pathOf(question, site, true);
    const address = `${path}${path.includes("?") ? "&" : "?"}language=${language.value}`;
    return (
      <a class="button need-file" href={address} download={file}>
        {t("Save as CSV")}
      </a>
    );
  }
  return (
    <button type="button" class="button need-file" onClick={() => saveFile(file, made(found), "text/csv")}>
      {t("Save as CSV")}
    </button>
  );
}
