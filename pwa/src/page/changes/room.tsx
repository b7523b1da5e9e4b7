/** The room `changes`. */

import { t } from "../words/catalogue";

export function Room(_: { words: string[] }) {
  return <main class="plain-room">{t("Nothing here yet.")}</main>;
}
