/** A small bowl: full, half or empty. Words stand beside it. */

import type { Fill } from "./line-words";

const WATER: Record<Fill, string> = {
  full: "M-18 0H18A18 18 0 0 1 -18 0Z",
  half: "M-15.6 9H15.6A18 18 0 0 1 -15.6 9Z",
  empty: "",
};

export function FillBowl({ fill }: { fill: Fill }) {
  return (
    <svg class="fill-bowl" viewBox="-22 -2 44 23" aria-hidden="true">
      <path class="fill-bowl-water" d={WATER[fill]} />
      <path class="fill-bowl-edge" d="M-19 0H19A19 19 0 0 1 -19 0Z" />
    </svg>
  );
}
