/** Everything of a person's that is not the server's yet, as one JSON file that any means can carry to a manager. */

import { type Acceptance, allAccepted } from "../catch-up/kept";
import { toldOf } from "../journal/kept";
import type { Told } from "../journal/shapes";
import { type Database, StorageFault } from "../store/database";
import { person, storageFault, unsent } from "../store/queries";
import type { Edit } from "../store/shapes";
import { store } from "../sync/phone";
import { type PhotoRow, photosOf } from "../wet-check/photos/kept";

/** Rises when what stands in the file changes its meaning. */
export const VERSION = 1;

/** A photo with its bytes. `type` is a media type. */
export interface PhotoInFile extends Pick<PhotoRow, "id" | "site" | "kept_at"> {
  type: string;
  base64: string;
}

/** `whole`: false where the phone could not read all it holds; edits are there all the same. */
export interface UnsentFile {
  version: number;
  person: string | null;
  whole: boolean;
  edits: readonly Edit[];
  entries: (Told & { site: string })[];
  rests: (Acceptance & { site: string })[];
  photos: PhotoInFile[];
}

/** What this phone holds for its person now, at whichever site, what the server would not have among it. */
export async function unsentFile(): Promise<UnsentFile> {
  const owner = person.peek()?.id ?? null;
  const file = { version: VERSION, person: owner, edits: unsent.peek() };
  const database = store.peek()?.database;
  if (!database || owner === null) return { ...file, whole: true, entries: [], rests: [], photos: [] };
  try {
    return { ...file, whole: true, ...(await besidesEditsOf(database, owner)) };
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return { ...file, whole: false, entries: [], rests: [], photos: [] };
  }
}

async function besidesEditsOf(
  database: Database,
  owner: string,
): Promise<Pick<UnsentFile, "entries" | "rests" | "photos">> {
  const [told, rests, photos] = await Promise.all([
    toldOf(database, owner),
    allAccepted(database, owner),
    photosOf(database, owner),
  ]);
  return {
    entries: told.filter((row) => !row.taken).map(({ site, entry }) => ({ site, ...entry })),
    rests: rests.map(({ site, given }) => ({ site, ...given })),
    photos: photos.map(inFile),
  };
}

function inFile({ id, site, kept_at, kind, bytes }: PhotoRow): PhotoInFile {
  return { id, site, kept_at, type: kind, base64: base64Of(new Uint8Array(bytes)) };
}

/** A whole number of threes, so that the pieces' texts join without padding between them. */
const PIECE = 3 * 4096;

/** RFC 4648, section 4. */
function base64Of(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += PIECE) {
    pieces.push(btoa(String.fromCharCode(...bytes.subarray(from, from + PIECE))));
  }
  return pieces.join("");
}
