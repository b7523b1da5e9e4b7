/** What comes after the shell, in the background: the languages, then the planner. The pages are told how far it is. */

import type { FromWorker, KeptState, ToWorker } from "../wire/shell";
import { built } from "./built";
import { changeLedger } from "./caches";
import { countLanguages, keepLanguages } from "./languages";
import { countPlanner, keepPlanner } from "./planner";
import { countShell, mendShell } from "./shell";

declare const self: ServiceWorkerGlobalScope;

type Keep = Extract<ToWorker, { ask: "keep" }>;

let running: { stop: AbortController; done: Promise<void> } | null = null;
/** Without WebAssembly the planner's files are of no use on this phone, and "ready" goes without them. */
let wantsPlanner = true;

/** Begin, or go on with what is under way. */
export function keepRest(event: ExtendableEvent, asked: Keep): Promise<void> {
  wantsPlanner = asked.planner;
  if (running) return running.done.then(tellAll);
  const stop = new AbortController();
  const done = fetchRest(event, asked, stop.signal).finally(() => {
    running = null;
  });
  running = { stop, done };
  return done;
}

/** Another version takes over as soon as this one has nothing left to do. */
export function letGo(): void {
  running?.stop.abort();
}

async function fetchRest(event: ExtendableEvent, asked: Keep, signal: AbortSignal): Promise<void> {
  const step = () => void tell(null);
  try {
    await changeLedger((ledger) => {
      ledger.language = asked.language;
    });
    await tell(null);
    await mendShell(event);
    await keepLanguages(asked.language, signal, step);
    if (asked.planner) await keepPlanner(signal, step);
    await tell(null);
  } catch (error) {
    // What is kept stays kept; the page asks again when it is opened, or when the line is back.
    await tell(error instanceof DOMException && error.name === "QuotaExceededError" ? "room" : "line");
  }
}

const tellAll = () => tell(null);

async function tell(stopped: KeptState["stopped"]): Promise<void> {
  const word: FromWorker = { tell: "kept", state: await state(stopped) };
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  for (const page of pages) page.postMessage(word);
}

async function state(stopped: KeptState["stopped"]): Promise<KeptState> {
  const [shell, languages, planner] = await Promise.all([countShell(), countLanguages(), countPlanner()]);
  const whole = (kind: { have: number; of: number }) => kind.of > 0 && kind.have === kind.of;
  const ready = whole(shell) && whole(languages) && (!wantsPlanner || whole(planner));
  return { version: built.shell.version, kinds: { shell, languages, planner }, ready, stopped };
}
