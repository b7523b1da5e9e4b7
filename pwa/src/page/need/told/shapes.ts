/** The water need as the server answers it and the engine on the phone works it out. Messages are codes: the page words them. */

import type { Message } from "../../words/say";

export interface NeedWeather {
  day: string;
  reference_mm: number | null;
  rung: string;
  row: string;
  flags: Message[];
}

export interface StationNeed {
  station: string;
  run_s: number;
  cycles: number;
  soak_s: number;
  messages: Message[];
}

/** Figures are null where something about the hydrozone is missing; its messages say what. */
export interface ZoneNeed {
  hydrozone: string;
  /** No turn of it goes by the need: the figures say what its plants would be given. */
  by_hand: boolean;
  depletion_mm: number | null;
  ready_mm: number | null;
  total_mm: number | null;
  tonight_mm: number | null;
  share_pct: number | null;
  next_night: string | null;
  next_mm: number | null;
  stations: StationNeed[];
  messages: Message[];
}

export interface NightNeed {
  night: string;
  weather: NeedWeather | null;
  hydrozones: ZoneNeed[];
  messages: Message[];
}

/** One number of the work: its base unit, `1` for a plain ratio, and the keys of those it follows from. */
export interface Figure {
  key: string;
  value: number | null;
  unit: string;
  inputs: string[];
  source: string;
  rung: string;
  row: string;
}

export interface Work {
  turn: string;
  night: string;
  decision: Message | null;
  figures: Figure[];
  messages: Message[];
}

/** A day of a balance, in mm. */
export interface SeasonDay {
  day: string;
  reference_mm: number | null;
  rung: string;
  row: string;
  demand_mm: number;
  rain_mm: number;
  effective_mm: number;
  lost_mm: number;
  rain_ran_off_mm: number;
  applied_mm: number;
  ran_off_mm: number;
  uneven_mm: number;
  taken_mm: number;
  percolated_mm: number;
  depletion_mm: number;
  ready_mm: number;
  total_mm: number;
  flags: Message[];
}

export interface Season {
  hydrozone: string;
  start_mm: number;
  days: SeasonDay[];
  messages: Message[];
}
