/** The fills of all programs, once for the whole page: six colours, six patterns, and the colour of what was asked for. */

import type { JSX } from "preact";
import { ASKED_LOOK, fillName, HUES } from "./programs";

interface Weave {
  size: [number, number];
  draw: JSX.Element | null;
}

const WEAVES: readonly Weave[] = [
  { size: [8, 8], draw: null },
  { size: [6, 6], draw: <path d="M3 0V6" class="weave-line" /> },
  {
    size: [8, 8],
    draw: (
      <>
        <circle cx="2" cy="2" r="1.1" class="weave-dot" />
        <circle cx="6" cy="6" r="1.1" class="weave-dot" />
      </>
    ),
  },
  { size: [6, 6], draw: <path d="M0 3H6" class="weave-line" /> },
  { size: [9, 9], draw: <path d="M4.5 2V7M2 4.5H7" class="weave-line" /> },
  { size: [9, 9], draw: <circle cx="4.5" cy="4.5" r="2.3" class="weave-ring" /> },
];

export function Patterns() {
  const looks = WEAVES.flatMap((_, pattern) => Array.from({ length: HUES }, (__, hue) => ({ hue, pattern })));
  return (
    <svg class="patterns" width="0" height="0" aria-hidden="true">
      <defs>
        {[...looks, ASKED_LOOK].map((look) => (
          <Fill key={fillName(look)} hue={look.hue} pattern={look.pattern} />
        ))}
        <pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7" class="hatch-line" />
        </pattern>
      </defs>
    </svg>
  );
}

function Fill({ hue, pattern }: { hue: number; pattern: number }) {
  const weave = WEAVES[pattern];
  if (!weave) return null;
  const [width, height] = weave.size;
  return (
    <pattern
      id={fillName({ hue, pattern })}
      class={`hue-${hue}`}
      width={width}
      height={height}
      patternUnits="userSpaceOnUse"
    >
      <rect width={width} height={height} class="weave-ground" />
      {weave.draw}
    </pattern>
  );
}
