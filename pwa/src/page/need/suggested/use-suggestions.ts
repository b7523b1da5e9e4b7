/** The suggestions for tonight: worked out here where the planner is, else as the server said last. */

import { useMemo } from "preact/hooks";
import { firstNight } from "../../effect/grounds";
import { type Known, type KnownAnswer, knownAnswer } from "../../more/known-list";
import { useKnown } from "../../more/use-known";
import { copy, person } from "../../store/queries";
import { type Asked, useAsked } from "../asking";
import type { Suggestions } from "./suggestions";

export interface Told {
  found: Suggestions | null;
  asked: Asked<Suggestions>;
  /** What the server said, where the phone itself does not know. */
  server: Known<Suggestions>;
  reload: () => void;
}

export function useSuggestions(): Told {
  const night = firstNight.value;
  const list = useMemo(() => answerFor(copy.value?.site ?? ""), [copy.value?.site]);
  const asked = useAsked<Suggestions>("suggestions", "suggestions", night ? copy.value : null, { night });
  const server = useKnown(list, asked.is === "later" || asked.is === "loading");
  const found = asked.is === "known" ? asked.found : server.items;
  return { found, asked, server, reload: () => void list.load() };
}

function answerFor(site: string): KnownAnswer<Suggestions> {
  return knownAnswer(person.peek()?.id ?? "", `/api/sites/${encodeURIComponent(site)}/need/suggestions`);
}
