/** The rooms, each a file of its own that is fetched when somebody first enters it; the service worker keeps them all. */

import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { RoomName } from "./way";

type Room = ComponentType<{ words: string[] }>;

const ROOM_FILES: Record<RoomName, () => Promise<{ Room: Room }>> = {
  tonight: () => import("../tonight/room"),
  stations: () => import("../stations/room"),
  ahead: () => import("../ahead/room"),
  changes: () => import("../changes/room"),
  more: () => import("../more/room"),
  site: () => import("../records/room"),
  join: () => import("../more/join"),
};

/** The room the reader is in. What was on the screen stays until the next room is there. */
export function RoomAt({ name, words }: { name: RoomName; words: string[] }) {
  const [entered, setEntered] = useState<{ name: RoomName; Room: Room } | null>(null);
  useEffect(() => {
    let wanted = true;
    void ROOM_FILES[name]().then(({ Room }) => {
      if (wanted) setEntered({ name, Room });
    });
    return () => {
      wanted = false;
    };
  }, [name]);
  if (!entered) return null;
  return entered.name === name ? <entered.Room words={words} /> : null;
}
