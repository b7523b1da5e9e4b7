/** What the engine on this phone says of the site: asked anew whenever the site changes. */

import { useEffect, useState } from "preact/hooks";
import { askEngine, NoPlanner, planner, Unsound } from "../planner/planner";
import type { DocumentData } from "../site/document";

export type Asked<Found> =
  | { is: "known"; found: Found }
  | { is: "working" }
  /** The planner loads; from 0 to 1. */
  | { is: "loading"; progress: number }
  /** This phone has no planner, or the site as it stands cannot be read. */
  | { is: "later" };

/** `data` null: there is nothing to ask yet. What was known stays while a newer answer is worked out. */
export function useAsked<Found>(
  topic: string,
  about: string,
  data: DocumentData | null,
  given: Readonly<Record<string, string>>,
): Asked<Found> {
  const [state, put] = useState<Asked<Found>>({ is: "working" });
  const { is, progress } = planner.value;
  const ready = is === "ready";
  const written = JSON.stringify(given);
  useEffect(() => {
    if (!ready || !data) return;
    let wanted = true;
    void answered<Found>(topic, about, data, given).then((found) => {
      if (wanted && found) put(found);
    });
    return () => {
      wanted = false;
    };
  }, [topic, about, data, written, ready]);
  if (ready) return state;
  return is === "absent" ? { is: "later" } : { is: "loading", progress };
}

/** Null where a later ask has overtaken this one. */
async function answered<Found>(
  topic: string,
  about: string,
  data: DocumentData,
  given: Readonly<Record<string, string>>,
): Promise<Asked<Found> | null> {
  try {
    return { is: "known", found: await askEngine<Found>(topic, about, data, given) };
  } catch (error) {
    if (error instanceof NoPlanner || error instanceof Unsound) return { is: "later" };
    if (error instanceof DOMException && error.name === "AbortError") return null;
    throw error;
  }
}
