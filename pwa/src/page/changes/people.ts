/** Who somebody is, as the reader is told. */

import { copy, person } from "../store/queries";
import { t } from "../words/catalogue";

/** A person's name; "you" beside one's own. An empty id is the server itself. */
export function nameOf(id: string | null | undefined, name?: string | null): string {
  if (id === "" || id === null || id === undefined) return name || t("The server");
  const known = name || copy.value?.people[id] || (person.value?.id === id ? person.value.name : "");
  if (person.value?.id === id) return known ? t("{name}, you", { name: known }) : t("You");
  return known || t("Somebody of the team");
}

export function isMe(id: unknown): boolean {
  return typeof id === "string" && id !== "" && person.value?.id === id;
}
