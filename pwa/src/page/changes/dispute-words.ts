/** The sentences of a dispute. */

import { fieldLabel } from "../records/field-labels";
import type { Waiting } from "../store/shapes";
import { t } from "../words/catalogue";
import { fieldOf } from "./ground";

/** What happened, and what it was before either of them. */
export function disputeWords(one: Waiting, was: string): string {
  const { edit, answer } = one;
  const field = fieldOf(edit);
  if (edit.kind === "remove")
    return t("One person removed this while another changed it, without knowing of each other.");
  if (field === "removed")
    return t("One person brought this back while another removed it, without knowing of each other.");
  if (edit.person === answer.by)
    return t("One person set this on two devices, and neither knew of the other: {field}. It was {was}.", {
      field: fieldLabel(edit.table, field),
      was,
    });
  if (edit.table === "turns" && field === "run")
    return t("Two people set this run time without knowing of each other. It was {was}.", { was });
  return t("Two people set this without knowing of each other: {field}. It was {was}.", {
    field: fieldLabel(edit.table, field),
    was,
  });
}

/** What holds meanwhile, and that nothing is lost by choosing. */
export function keepWords(value: string, may: boolean): string {
  return may
    ? t(
        "Until you choose, tonight keeps {value}. Whichever you take, the other stays in the history and can be put back.",
        { value },
      )
    : t("Until somebody chooses, tonight keeps {value}. Leads and managers can settle it.", { value });
}
