/** What the server's answers do to an outbox: each answered edit leaves it for the one place its answer names. */

import type { OutboxEdit, Overlaid } from "./kept";
import type { Answer } from "./shapes";

export interface Answered {
  edit: OutboxEdit;
  answer: Answer;
}

export interface AfterAnswers {
  outbox: OutboxEdit[];
  overlaid: Overlaid[];
  answered: Answered[];
}

/** Answers to edits that are not in the outbox (any more) say nothing new: each is answered the same way each time. */
export function afterAnswers(
  outbox: readonly OutboxEdit[],
  overlaid: readonly Overlaid[],
  answers: readonly Answer[],
  cursorOf: (site: string) => number | null,
): AfterAnswers {
  const said = new Map(answers.map((answer) => [answer.id, answer]));
  const answered: Answered[] = [];
  for (const edit of outbox) {
    const answer = said.get(edit.id);
    if (answer) answered.push({ edit, answer });
  }
  const more = answered.flatMap(({ edit, answer }) => stillOver(edit, answer, cursorOf(edit.site)));
  return {
    outbox: outbox.filter((edit) => !said.has(edit.id)),
    overlaid: [...overlaid, ...more],
    answered,
  };
}

/** What is in force stays laid over the copy until the copy has it too, so that nothing flickers. */
function stillOver(edit: OutboxEdit, answer: Answer, cursor: number | null): Overlaid[] {
  const inForce = answer.outcome === "taken" || answer.outcome === "agreed";
  const revision = answer.revision ?? null;
  if (!inForce || revision === null || (cursor !== null && revision <= cursor)) return [];
  return [{ ...edit, revision, version: answer.version ?? null }];
}
