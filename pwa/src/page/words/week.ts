/** In which order the days of a week stand: it begins where the reader, or else their region, has it begin. */

import { WEEKDAYS, type Weekday } from "./day-rules";
import { locale } from "./formats";
import { firstDay } from "./reader";

interface WithWeek {
  weekInfo?: { firstDay: number };
  getWeekInfo?(): { firstDay: number };
}

/** Monday, where a browser does not know (ISO 8601). */
const FIRST = 1;

export function weekOrder(): Weekday[] {
  const own = firstDay.value;
  const first = own ? WEEKDAYS.indexOf(own) : (usualFirstDay() - 1 + 7) % 7;
  return [...WEEKDAYS.slice(first), ...WEEKDAYS.slice(0, first)];
}

/** As the language and region have it: 1 is Monday, 7 Sunday. */
export function usualFirstDay(): number {
  const known = new Intl.Locale(locale.value) as WithWeek;
  return (known.getWeekInfo?.() ?? known.weekInfo)?.firstDay ?? FIRST;
}
