/** What the engine says of some days: their reference, their rung, their flags. Asked anew when a reading changes. */

import { useEffect, useState } from "preact/hooks";
import { askEngine, NoPlanner, planner, Unsound } from "../../planner/planner";
import type { Records } from "../../records/records";
import type { DocumentData, SiteRecord } from "../../site/document";
import { copy } from "../../store/queries";
import type { Message } from "../../words/say";
import { type ToldDay, weatherPart } from "./days";

export interface ToldDays {
  days: ToldDay[];
  messages: Message[];
}

export interface AskedDays {
  /** `faulty`: a reading cannot be kept as it is. `absent`: this browser has no planner. */
  is: "loading" | "working" | "known" | "absent" | "faulty";
  progress: number;
  /** The last answer, as long as no newer one is there. */
  told: ToldDays | null;
}

const PAUSE_MS = 200;

export function useDays(topic: string, records: Records, first: string, last: string): AskedDays {
  const [found, setFound] = useState<{ asked: string; told: ToldDays | null } | null>(null);
  const { is, progress } = planner.value;
  const asked = JSON.stringify(weatherPart(records, first, last));
  useEffect(() => {
    if (is !== "ready") return;
    let wanted = true;
    const pause = setTimeout(() => {
      void tellOf(topic, asked, first, last).then((told) => {
        if (wanted && told !== undefined) setFound({ asked, told });
      });
    }, PAUSE_MS);
    return () => {
      wanted = false;
      clearTimeout(pause);
    };
  }, [topic, asked, first, last, is]);
  const told = found?.told ?? null;
  if (found?.asked === asked) return { is: told ? "known" : "faulty", progress, told };
  if (is === "absent") return { is, progress, told };
  return { is: is === "ready" ? "working" : "loading", progress, told };
}

/** Null where the engine finds faults; undefined where a later ask overtook this one, or the planner has stopped. */
async function tellOf(topic: string, records: string, first: string, last: string) {
  const document: DocumentData = { format: copy.peek()?.format ?? 1, records: JSON.parse(records) as SiteRecord[] };
  try {
    return await askEngine<ToldDays>(topic, "weather", document, { first, last });
  } catch (error) {
    if (error instanceof Unsound) return null;
    if (error instanceof NoPlanner || (error instanceof DOMException && error.name === "AbortError")) return undefined;
    throw error;
  }
}
