/** Accepted rests on their way to the server: after what was told, one after the other, until each is answered. */

import { type JournalParts, journalRound } from "../journal/round";
import { detailOf, isAnswer, mayBeLater } from "../line/line";
import type { KeptNight } from "../store/kept";
import type { Ending } from "../sync/round";
import { allAccepted, dropAccepted, turnAway } from "./kept";

export interface OwnParts extends JournalParts {
  /** A rest was turned away: the night is again as it was before. */
  putBack: (site: string, night: KeptNight) => Promise<void>;
}

const MOST_SENT = 100;

/** One round with the journal, and then with what was accepted: the server works a rest out from what was told. */
export async function ownRound(parts: OwnParts): Promise<Ending> {
  const journal = await journalRound(parts);
  return journal.how === "in_step" ? await restsRound(parts) : journal;
}

/** Send what its person has accepted, at whichever site. One that the server will not have waits with what it said, and
 * delays no other. */
async function restsRound({ database, of: { owner }, send, putBack }: OwnParts): Promise<Ending> {
  for (let turn = 0; turn < MOST_SENT; turn++) {
    const next = (await allAccepted(database, owner)).find(({ fault }) => fault === null);
    if (!next) return { how: "in_step" };
    const [of, { given }] = [{ owner, site: next.site }, next];
    const reply = await send(`/api/sites/${encodeURIComponent(of.site)}/nights/tonight/catch-up`, given);
    if (isAnswer(reply)) await dropAccepted(database, of, given.id);
    else if (mayBeLater(reply)) return { how: "silent", wait_ms: reply.wait_ms };
    else {
      const night = await turnAway(database, of, given.id, detailOf(reply) || String(reply.status));
      if (night) await putBack(of.site, night);
    }
  }
  return { how: "later" };
}
