/** Weather stations that may send readings. Needs signal. */

import "../../look/need-weather.css";
import { type Senders, SendersPage } from "../../senders/senders-page";
import { t } from "../../words/catalogue";
import { type WeatherStation, weatherStations } from "./station-api";
import { StationCard } from "./station-card";

const STATIONS: Senders<WeatherStation> = {
  api: weatherStations,
  forManagers: () => t("Managers of this site see its weather stations."),
  none: () => t("No weather station sends readings yet."),
  newName: () => t("Name of a new weather station"),
  newHint: () => t("The history names it so. Its token is shown once."),
  letIn: () => t("Let it send readings"),
  Card: StationCard,
};

export function WeatherStationsPage(_: { words: string[] }) {
  return (
    <div class="weather-stations">
      <SendersPage senders={STATIONS} />
    </div>
  );
}
