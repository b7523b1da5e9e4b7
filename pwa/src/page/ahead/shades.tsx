/** The shades of the supplies in the silhouettes: each has a pattern as well, so that none rests on its tone alone. */

import type { JSX } from "preact";

/** After the fourth supply the shades begin again. */
export const SHADES = 4;

const WEAVES: readonly { size: number; draw: JSX.Element | null }[] = [
  { size: 4, draw: null },
  { size: 5, draw: <path d="M2.5 0V5" class="shade-line" /> },
  { size: 6, draw: <circle cx="3" cy="3" r="0.9" class="shade-dot" /> },
  { size: 4, draw: <path d="M0 2H4" class="shade-line" /> },
];

export type Ground = "stone" | "slab";

export function shadeName(group: number, ground: Ground): string {
  return `shade-${ground}-${group % SHADES}`;
}

/** Once for the room: the fills of silhouettes on pale stone and on the slab, and the hatch of closures on stone. */
export function Shades() {
  return (
    <svg class="patterns" width="0" height="0" aria-hidden="true">
      <defs>
        {(["stone", "slab"] as const).flatMap((ground) =>
          WEAVES.map(({ size, draw }, group) => (
            <pattern
              key={shadeName(group, ground)}
              id={shadeName(group, ground)}
              class={`shade on-${ground} shade-${group}`}
              width={size}
              height={size}
              patternUnits="userSpaceOnUse"
            >
              <rect width={size} height={size} class="shade-ground" />
              {draw}
            </pattern>
          )),
        )}
        <pattern
          id="stone-hatch"
          class="on-stone"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V7" class="stone-hatch-line" />
        </pattern>
      </defs>
    </svg>
  );
}
