/** The cautions of this night, above all lists: where people can be hurt, nobody should have to scroll for it. */

import type { LoadedNight } from "../night/night";
import { sayFor } from "../night/reading";

/** What the engine says that is a caution: reclaimed water runs. */
export const CAUTIONS: ReadonlySet<string> = new Set(["notice.reclaimed"]);

export function Cautions({ night }: { night: LoadedNight }) {
  return (
    <>
      {night.sheet.notices
        .filter((notice) => CAUTIONS.has(notice.code))
        .map((notice, index) => (
          <p key={`${notice.code}-${index}`} class="caution-line">
            {sayFor(night, notice)}
          </p>
        ))}
    </>
  );
}
