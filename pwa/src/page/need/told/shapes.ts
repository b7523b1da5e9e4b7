/** The water need as the engine on the phone works it out: the server's shapes, but for what the server puts into words.
 * Messages are codes, and the page words them; figures are null where something is missing, and messages say what. */

import type * as api from "../../line/api";
import type { Message } from "../../words/say";

/** The same all the way down, each message a code. */
type Coded<Shape> = Shape extends api.Said
  ? Message
  : Shape extends (infer Item)[]
    ? Coded<Item>[]
    : Shape extends object
      ? { [Name in keyof Shape as Name extends Worded ? never : Name]: Coded<Shape[Name]> }
      : Shape;
/** What the server alone says, in a reader's language. */
type Worded = "caution";

export type NeedWeather = Coded<api.NeedWeather>;
export type ZoneNeed = Coded<api.HydrozoneNeed>;
export type NightNeed = Coded<api.NightNeed>;
/** One number of the work: its base unit, `1` for a plain ratio, and the keys of those it follows from. */
export type Figure = Omit<Coded<api.Figure>, "name">;
export type Work = Omit<Coded<api.Work>, "figures"> & { figures: Figure[] };
/** A day of a balance, in mm. */
export type SeasonDay = Coded<api.SeasonDay>;
export type Season = Coded<api.Season>;
