/** Keeps typed names and figures whole in sentences that run the other way (Unicode UAX #9, isolates). */

export const FIRST_STRONG = "\u2068";
export const POP = "\u2069";
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/;

/** The text between isolates where a direction could clash; as it is where all runs left to right. */
export function isolate(text: string, direction: "ltr" | "rtl"): string {
  return direction === "ltr" && !RIGHT_TO_LEFT.test(text) ? text : `${FIRST_STRONG}${text}${POP}`;
}
