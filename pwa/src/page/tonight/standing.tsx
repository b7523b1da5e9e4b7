/** How this night came about, where it is not simply the server's: with unsent edits, or not knowing of the last ones yet. */

import { asked, busy, TONIGHT } from "../night/night";
import { nights } from "../night/nights";
import { t } from "../words/catalogue";
import { shortDay } from "../words/moments";

export function Standing({ night }: { night: string }) {
  const lines = [asideWords(night), ...originWords(night)].filter(Boolean);
  if (lines.length === 0) return null;
  return (
    <div class="standing" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

/** Another night is asked for than the one that can be shown. */
function asideWords(night: string): string {
  if (asked.value === TONIGHT || asked.value === night) return "";
  if (busy.value) return t("Fetching the night of {date}…", { date: shortDay(asked.value) });
  const days = { date: shortDay(asked.value), shown: shortDay(night) };
  return t("The night of {date} is not on this phone yet. You see the night of {shown}.", days);
}

function originWords(night: string): string[] {
  const known = nights.value.get(night);
  if (!known) return [];
  return [
    known.from === "phone" ? t("With your unsent edits.") : "",
    known.behind ? t("This night does not know of the last edits yet.") : "",
  ];
}
