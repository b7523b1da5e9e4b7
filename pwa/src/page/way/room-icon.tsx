/** A small drawing for each room. It never stands without the room's name. */

import type { RoomName } from "./way";

const DRAWN: Record<RoomName, string> = {
  tonight: "M3 4H21M4 9H11V20H4ZM11 13H17V20H11ZM17 16H20V20H17",
  stations: "M5 4H19V13A7 7 0 0 1 12 20 7 7 0 0 1 5 13ZM12 7.5V8.5M9 13H15",
  ahead: "M4 5H15M4 10H20M4 15H12M4 20H17",
  changes: "M4 8H19L15 4M20 16H5L9 20",
  more: "M5 12H5.1M12 12H12.1M19 12H19.1",
  site: "M4 20V8L12 4L20 8V20ZM9 20V13H15V20",
  need: "M4 9H20A8 8 0 0 1 4 9ZM7 20H17",
  "wet-check": "M5 4H19V13A7 7 0 0 1 12 20 7 7 0 0 1 5 13ZM9 11L11.5 13.5L15.5 8.5",
  join: "M12 5V19M5 12H19",
};

export function RoomIcon({ name }: { name: RoomName }) {
  return (
    <svg class={`room-icon room-icon-${name}`} viewBox="0 0 24 24" aria-hidden="true">
      <path d={DRAWN[name]} />
    </svg>
  );
}
