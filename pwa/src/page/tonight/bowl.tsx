/** The pierced bowl: it fills as time passes, and when it is full the moment has come. */

interface BowlProps {
  /** From 0, empty, to 1. */
  level: number;
  large?: boolean;
}

const RADIUS = 46;

export function Bowl({ level, large = false }: BowlProps) {
  return large ? <LargeBowl level={level} /> : <SmallBowl level={level} />;
}

/** The water in a half disc around (0, 0) with the given radius. */
function waterPath(radius: number, level: number): string {
  const y = radius * (1 - Math.min(1, Math.max(0, level)));
  const half = Math.sqrt(radius * radius - y * y);
  return `M${-half} ${y}H${half}A${radius} ${radius} 0 0 1 ${-half} ${y}Z`;
}

function LargeBowl({ level }: { level: number }) {
  return (
    <svg class="bowl bowl-large" viewBox="-75 -4 150 80" aria-hidden="true">
      <path class="bowl-lip" d="M-75 0H-58M58 0H75" />
      <path class="bowl-wall" d="M-56 0A56 56 0 0 0 -7 55.5M7 55.5A56 56 0 0 0 56 0" />
      <path class="bowl-water" d={waterPath(RADIUS, level)} />
      <path class="bowl-drip" d="M0 59V76" />
    </svg>
  );
}

function SmallBowl({ level }: { level: number }) {
  return (
    <svg class="bowl bowl-small" viewBox="-24 -2 48 26" aria-hidden="true">
      <path class="bowl-ground" d="M-22 0H22A22 22 0 0 1 -22 0Z" />
      <path class="bowl-water" d={waterPath(20, level)} />
      <path class="bowl-edge" d="M-22 0H22A22 22 0 0 1 -22 0Z" />
    </svg>
  );
}
