/** The room `site`: every record the schedule is made of, to read and to change. */

import "../look/records.css";
import { t } from "../words/catalogue";

export function Room(_: { words: string[] }) {
  return <main class="plain-room">{t("Nothing here yet.")}</main>;
}
