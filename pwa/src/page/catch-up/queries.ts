/** What screens read of rests that were accepted here. It follows what the phone holds. */

import { signal } from "@preact/signals";
import type { AcceptedRow } from "./kept";

/** Those of the open site that are not the server's yet, or were turned away. */
export const accepted = signal<readonly AcceptedRow[]>([]);
