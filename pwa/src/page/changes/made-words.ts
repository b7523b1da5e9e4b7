/** When and where one side of a dispute was set. */

import { person } from "../store/queries";
import type { Waiting } from "../store/shapes";
import { t } from "../words/catalogue";
import { phoneTime, whenWords } from "./when";

export function madeWords(one: Waiting, side: "mine" | "theirs"): string {
  if (side === "theirs") return one.answer.when == null ? "" : whenWords(one.answer.when);
  const made = phoneTime(one.edit.phone_time) ?? (typeof one.edit.at === "number" ? one.edit.at : null);
  if (made === null) return "";
  const when = whenWords(made);
  return one.edit.device === person.value?.device
    ? t("{when}, on this phone", { when })
    : t("{when}, on another device", { when });
}
