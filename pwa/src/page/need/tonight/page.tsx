/** What each hydrozone needs tonight, or on which night next, and by what weather that was worked out. */

import "../../look/need-work.css";
import type { SiteDocument } from "../../site/document";
import { site } from "../../store/queries";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { longDay, nightSpan } from "../../words/moments";
import { PlanningAid } from "../planning-aid";
import { depth } from "../told/amounts";
import { rungWords } from "../told/rungs";
import type { NeedWeather, NightNeed } from "../told/shapes";
import { NeedStanding } from "../told/standing";
import { useTold } from "../told/use-told";
import { NeedWarnings, WarningsAhead } from "../told/warnings";
import { byUrgency } from "./urgency";
import { ZoneRow } from "./zone-row";

export function TonightNeed() {
  const document = site.value;
  const asked = useTold<NightNeed>("night");
  const { found, question } = asked;
  const night = question.night || (found?.night ?? "");
  if (!document) return null;
  return (
    <div class="tonight-need">
      <div class="list-head">
        <h2>{night ? nightSpan(night) : t("Tonight")}</h2>
      </div>
      <NeedStanding asked={asked} />
      {found ? <Known document={document} found={found} /> : null}
      <PlanningAid />
    </div>
  );
}

function Known({ document, found }: { document: SiteDocument; found: NightNeed }) {
  if (found.hydrozones.length === 0 && found.messages.length === 0) return <NoneByNeed />;
  const odd = [...found.messages, ...(found.weather?.flags ?? [])];
  return (
    <>
      <WarningsAhead messages={odd} />
      {found.weather ? <WeatherLine weather={found.weather} /> : null}
      {found.hydrozones.some((zone) => zone.by_hand) ? <ByHand /> : null}
      <ul class="zone-rows">
        {byUrgency(found.hydrozones).map((zone) => (
          <ZoneRow key={zone.hydrozone} zone={zone} document={document} />
        ))}
      </ul>
      <NeedWarnings messages={odd} />
    </>
  );
}

function WeatherLine({ weather }: { weather: NeedWeather }) {
  const about =
    weather.reference_mm === null
      ? t("Weather of {day}.", { day: longDay(weather.day) })
      : t("Weather of {day}: {depth} of reference evapotranspiration.", {
          day: longDay(weather.day),
          depth: depth(weather.reference_mm),
        });
  return (
    <p class="need-weather" data-rung={weather.rung}>
      {about}
      <span>{rungWords(weather.rung)}</span>
    </p>
  );
}

/** Figures of plants that are watered by hand are advice alone. */
function ByHand() {
  return (
    <p class="need-note">
      {t(
        "Where run times are set by hand, the figure says what the plants would be given; the night does not follow it.",
      )}
    </p>
  );
}

function NoneByNeed() {
  return (
    <div class="need-none">
      <p>
        {t("No turn waters a hydrozone: there is no need to work out. Give stations a hydrozone and a turn first.")}
      </p>
      <button type="button" class="button" onClick={() => go("stations")}>
        {t("Stations")}
      </button>
    </div>
  );
}
