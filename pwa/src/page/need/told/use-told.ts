/** An answer about the water need on a screen: asked when the screen opens, and again when what it rests on has changed. */

import { useEffect, useMemo, useState } from "preact/hooks";
import { tonightDate } from "../../night/nights";
import { planner } from "../../planner/planner";
import { copy, line, person, unsent } from "../../store/queries";
import { language } from "../../words/reader";
import { answerTo, type Ground, type Question, type Told } from "./asking";

export interface Asked<Found> extends Told<Found> {
  busy: boolean;
  question: Question;
  /** There is a line to the server now. */
  live: boolean;
}

const NOTHING = { found: null, from: null, at: null, counted: false, detail: "" } as const;

export function useTold<Found>(about: Question["about"], of = "", on = ""): Asked<Found> {
  const night = on || tonightDate.value;
  const question = useMemo<Question>(() => ({ about, night, of }), [about, night, of]);
  const ground = useGround();
  const [told, put] = useState<{ told: Told<Found>; busy: boolean; question: Question | null }>({
    told: NOTHING,
    busy: true,
    question: null,
  });
  useEffect(() => {
    let wanted = true;
    put((was) => ({ told: was.question === question ? was.told : NOTHING, busy: true, question }));
    void ask<Found>(question, ground).then((found) => {
      if (wanted && found) put({ told: found, busy: false, question });
    });
    return () => {
      wanted = false;
    };
  }, [question, ground]);
  return { ...told.told, busy: told.busy, question, live: ground?.heard ?? false };
}

/** Null: a later ask overtook it. */
async function ask<Found>(question: Question, ground: Ground | null): Promise<Told<Found> | null> {
  if (!ground) return NOTHING;
  try {
    return await answerTo<Found>(question, ground);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return null;
    throw error;
  }
}

/** Each sync hands out a new copy; what is asked anew is only what rests on another revision or other unsent edits. */
function useGround(): Ground | null {
  const here = copy.value;
  const heard = line.value.spoke !== null && line.value.now !== "no_signal";
  const [whose, ready, reader] = [person.value?.id ?? "", planner.value.is === "ready", language.value];
  const edits = unsent.value;
  const known = here && `${here.site} ${here.revision} ${JSON.stringify(edits.map(({ id, now }) => [id, now]))}`;
  return useMemo(
    () =>
      here && {
        whose,
        site: here.site,
        revision: here.revision,
        heard,
        unsent: edits.length,
        planner: ready,
        document: { format: here.format, records: here.records },
        language: reader,
      },
    [known, heard, whose, ready, reader],
  );
}
