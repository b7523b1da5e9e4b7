/** Why a change could not be kept. */

/** Nothing was lost, and the person is told what to do. */
export class KeepFault extends Error {
  constructor(readonly why: "storage" | "outbox_full" | "not_yours" | "no_site") {
    super(why);
  }
}
