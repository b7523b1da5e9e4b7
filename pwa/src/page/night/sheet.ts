/** The night sheet as the engine writes it (see the JSON Schema of the sheet). Instants are whole seconds since 1970. */

import type { Message } from "../words/say";

export interface Rung {
  why: Message;
  at: number;
}

export interface Run {
  turn: string;
  station: string;
  program: string | null;
  supply: string;
  controller: string | null;
  cycle: number;
  cycles: number;
  start: number;
  end: number;
  start_local: string;
  end_local: string;
  flow_lpm: number;
  volume_l: number;
  why: Message;
  ladder: Rung[];
}

export interface Shortfall {
  turn: string;
  station: string;
  program: string | null;
  supply: string;
  cycles: number;
  run_s: number;
  volume_l: number;
  why: Message;
}

export interface Draw {
  supply: string;
  steps: [number, number][];
  volume_l: number;
  peak_lpm: number;
}

export interface ClosedSpan {
  closure: string | null;
  supply: string | null;
  whole: boolean;
  start: number;
  end: number;
}

export interface Bound {
  at: number;
  holder: Message;
  relief: Message | null;
}

export interface NightSheet {
  site: string;
  night: string;
  starts: number;
  ends: number;
  runs: Run[];
  shortfalls: Shortfall[];
  draws: Draw[];
  closed: ClosedSpan[];
  finish: number | null;
  bound: Bound | null;
  notices: Message[];
  volume_due_l: number;
  volume_l: number;
}

/** What tells one run of a night from all others. */
export function runKey(run: Run): string {
  return `${run.turn}.${run.cycle}`;
}
