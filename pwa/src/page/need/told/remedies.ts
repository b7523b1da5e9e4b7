/** What can be done about something that is said of the water need, and where. */

import type { RoomName } from "../../way/way";
import { t } from "../../words/catalogue";
import type { Message } from "../../words/say";

export interface Remedy {
  /** What to do. */
  words: string;
  /** The way there, and what the button says; absent: nothing can be opened. */
  way?: { room: RoomName; words: string[]; says: string };
}

/** Null for what only informs. */
export function remedyFor(message: Message): Remedy | null {
  const text = (name: string) => String(message.params[name] ?? "");
  if (message.code.startsWith("weather.")) return reading(text("row"));
  return REMEDIES[message.code]?.(text) ?? null;
}

type Text = (name: string) => string;

const REMEDIES: Readonly<Record<string, (text: Text) => Remedy>> = {
  "need.no_area": (text) => station(text("station"), t("Audit it with cans, or enter the area it waters.")),
  "need.no_audit": () => ({
    words: t("An audit with cans says how much it really gives, and how evenly."),
    way: { room: "need", words: ["audits"], says: t("Audits") },
  }),
  "need.odd_rate": (text) => station(text("station"), t("Look at its flow and its area.")),
  "need.no_hydrozone": (text) => station(text("station"), t("Say which hydrozone it waters.")),
  "need.no_soil": (text) =>
    zone(text("hydrozone"), t("Enter its soil: a handful of it, wetted and rolled, tells which.")),
  "need.no_roots": (text) => zone(text("hydrozone"), t("Dig beside a plant and enter how deep most roots go.")),
  "need.no_coefficient": (text) => zone(text("hydrozone"), t("Enter what grows there, or its factors.")),
  "need.no_start": () => ({
    words: t("Dig to the depth of the roots, feel the soil, and enter what it lacks."),
    way: { room: "site", words: ["soil_water", "new"], says: t("Enter soil water") },
  }),
  "need.no_place": () => ({
    words: t("Enter the latitude of the site, or the normals of its months."),
    way: { room: "site", words: ["site"], says: t("Open the site’s record") },
  }),
  "need.runs_off": () => ({
    words: t("Water it on more nights with less each time, give it more hours, or fit heads that give less an hour."),
  }),
  "need.long_turn": () => ({ words: t("Water it on more nights, or split it among more stations.") }),
  "need.no_weather": () => weather(t("Enter the day’s weather, or the month’s normal.")),
  "need.hours_missing": () => weather(t("The day is worked out from its extremes and means. Send the missing hours.")),
  "need.no_rain_reading": () => weather(t("Read the gauge and enter what fell, also where that is nothing.")),
};

function station(id: string, words: string): Remedy {
  return { words, way: { room: "site", words: ["stations", id], says: t("Open the station’s record") } };
}

function zone(id: string, words: string): Remedy {
  return { words, way: { room: "site", words: ["hydrozones", id], says: t("Open the hydrozone’s record") } };
}

function weather(words: string): Remedy {
  return { words, way: { room: "need", words: ["weather"], says: t("Weather") } };
}

/** Nothing is repaired in silence: somebody looks, and what they correct changes every day from then on. */
function reading(row: string): Remedy {
  return {
    words: t("Look at the reading. Where it is wrong, correct it: every day from then on follows."),
    ...(row ? { way: { room: "site" as const, words: ["weather", row], says: t("Open the reading") } } : {}),
  };
}
