/** What is odd about a day's readings. It is shown and never repaired. */

import { fieldLabel } from "../../records/field-labels";
import { t } from "../../words/catalogue";
import { shortDay } from "../../words/moments";
import { sayNeed } from "../told/names";
import { type Flag, shownParams } from "./days";

export function FlagList({ day, flags }: { day: string; flags: readonly Flag[] }) {
  if (flags.length === 0) return null;
  return (
    <ul class="weather-flags" aria-label={t("Odd about its readings")}>
      {flags.map((flag) => (
        <li key={`${flag.code} ${flag.fields.join()}`} data-flag={flag.code}>
          <strong>{flag.barred ? t("Not used.") : t("Look at it.")}</strong> {words(flag, day)}
        </li>
      ))}
    </ul>
  );
}

function words(flag: Flag, day: string): string {
  return sayNeed({
    code: flag.code,
    params: shownParams(flag, (field) => fieldLabel("weather", field), shortDay(day)),
  });
}
