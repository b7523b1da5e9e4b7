/** The mark: a bowl on the waterline, pierced, part full. */
export function Mark() {
  return (
    <svg class="mark" viewBox="0 0 56 28" aria-hidden="true">
      <path class="mark-line" d="M0 8H8M48 8H56" />
      <path class="mark-wall" d="M11 6A17 17 0 0 0 24.5 24.6M31.5 24.6A17 17 0 0 0 45 6" />
      <path class="mark-water" d="M17.6 11H38.4A11 11 0 0 1 17.6 11Z" />
    </svg>
  );
}
