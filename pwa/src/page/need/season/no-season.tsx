/** Why there is no season to show of a hydrozone, and what is missing. */

import { t } from "../../words/catalogue";
import type { NightNeed } from "../told/shapes";
import { useTold } from "../told/use-told";
import { NeedWarnings } from "../told/warnings";

export function NoSeason({ zone }: { zone: string }) {
  const { found } = useTold<NightNeed>("night");
  if (!found) return null;
  const here = found.hydrozones.find(({ hydrozone }) => hydrozone === zone);
  if (here)
    return (
      <>
        <p class="need-note">{t("No balance of its soil can be kept: something is missing.")}</p>
        <NeedWarnings messages={here.messages} />
      </>
    );
  return (
    <p class="need-note">
      {t("No turn waters it, so there is no balance of its soil to keep. Give one of its stations a turn first.")}
    </p>
  );
}
