/**
 * The chain of runs that holds the finish: from the run that ends last back to those whose end it waited for, link by
 * link, as their own reasons say. A reason that is no other run (a window opens, a program starts) ends the chain. Runs
 * that are late because somebody wants them so hold nothing.
 */

import type { SiteDocument } from "../site/document";
import { type NightSheet, type Run, runKey } from "./sheet";

type Fits = (before: Run, run: Run) => boolean;

const sameProgram: Fits = (before, run) => before.program === run.program;
const sameController: Fits = (before, run) => before.controller === run.controller;
const cycleBefore: Fits = (before, run) => before.turn === run.turn && before.cycle === run.cycle - 1;

const LINKS: Readonly<Record<string, Fits>> = {
  "why.apart": (before, run) => before.station === run.why.params.station,
  "why.controller_current": sameController,
  "why.controller_open": sameController,
  "why.cycle_ends": cycleBefore,
  "why.program_flow": sameProgram,
  "why.program_open": sameProgram,
  "why.soak_ends": cycleBefore,
  "why.station_busy": (before, run) => before.station === run.station,
  "why.valve_gap": sameController,
};

export function holdingChain(sheet: NightSheet, document: SiteDocument): Set<string> {
  const chain = new Set<string>();
  let run = lastHeld(sheet);
  while (run && !chain.has(runKey(run))) {
    chain.add(runKey(run));
    run = before(run, sheet, document);
  }
  return chain;
}

function lastHeld(sheet: NightSheet): Run | undefined {
  const held = sheet.runs.filter((run) => run.why.code !== "why.as_late_as_possible");
  return held.reduce<Run | undefined>((last, run) => (last && last.end >= run.end ? last : run), undefined);
}

/** The run that this one waited for: the one that ends as it may begin, the largest where several do. */
function before(run: Run, sheet: NightSheet, document: SiteDocument): Run | undefined {
  const fits = run.why.code === "why.supply_flow" ? drawsFrom(document, run.why.params.supply) : LINKS[run.why.code];
  if (!fits) return undefined;
  const freed = run.start - restOf(run);
  const ended = sheet.runs.filter((one) => one.end <= freed && freed - one.end < 60 && fits(one, run));
  if (run.why.code === "why.soak_ends") return sheet.runs.find((one) => cycleBefore(one, run));
  return ended.sort((a, b) => b.end - a.end || b.flow_lpm - a.flow_lpm || (runKey(a) < runKey(b) ? -1 : 1))[0];
}

function restOf(run: Run): number {
  const gap = run.why.params.gap_s;
  return run.why.code === "why.valve_gap" && typeof gap === "number" ? gap : 0;
}

/** Whether a run's water comes through this supply. */
function drawsFrom(document: SiteDocument, supply: unknown): Fits {
  return (before) => {
    for (let at: string | null = before.supply; at; at = document.supplies.get(at)?.fedBy ?? null)
      if (at === supply) return true;
    return false;
  };
}
