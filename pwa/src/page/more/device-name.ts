/** A first name for this device, out of what the browser says it is; its owner may change it. */

import { t } from "../words/catalogue";

export function deviceGuess(agent: string, touches: boolean): string {
  if (/iPhone|iPod/.test(agent)) return t("iPhone");
  if (/iPad/.test(agent) || (/Macintosh/.test(agent) && touches)) return t("iPad");
  if (/Android/.test(agent)) return /Mobile/.test(agent) ? t("Android phone") : t("Android tablet");
  return t("Computer");
}

/** On iOS an installed app and the browser keep apart what they hold. */
export function isApple(agent: string, touches: boolean): boolean {
  return /iPhone|iPad|iPod/.test(agent) || (/Macintosh/.test(agent) && touches);
}
