/** The sites on this phone, where there are several: the one in view is named, the others are one tap away. */

import { Choice } from "../controls/choice";
import { copy, person } from "../store/queries";
import { lookAt } from "../sync/follow";
import { t } from "../words/catalogue";
import { readableSites } from "./crew";
import { roleName } from "./role-words";
import { useKnown } from "./use-known";

export function SiteSwitch() {
  const known = useKnown(readableSites());
  const here = copy.value?.site;
  const sites = known.items ?? [];
  if (!here || sites.length < 2) return null;
  const roles = new Map(person.value?.sites.map(({ site, role }) => [site, role]));
  return (
    <Choice
      label={t("Site")}
      value={here}
      options={sites.map(({ id, name }) => ({ value: id, label: name, about: roleName(roles.get(id)) }))}
      onChange={(id) => void lookAt(id)}
    />
  );
}
