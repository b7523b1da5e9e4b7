/** Weather by hand: the last days and what is odd about them, and each day on its own. */

import "../../look/record-form.css";
import "../../look/records.css";
import "../../look/need-weather.css";
import { DayList } from "./day-list";
import { DayPage } from "./day-page";

export function WeatherPage({ words: [day] }: { words: string[] }) {
  return day === undefined ? <DayList /> : <DayPage key={day} day={day} />;
}
