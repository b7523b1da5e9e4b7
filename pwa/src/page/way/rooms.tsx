/** The rooms, each a file of its own that is fetched when somebody first enters it; the service worker keeps them all. */

import type { ComponentType } from "preact";
import { useEffect, useReducer } from "preact/hooks";
import type { RoomName } from "./way";

type Room = ComponentType<{ words: string[] }>;

const ROOM_FILES: Record<RoomName, () => Promise<{ Room: Room }>> = {
  tonight: () => import("../tonight/room"),
  stations: () => import("../stations/room"),
  ahead: () => import("../ahead/room"),
  changes: () => import("../changes/room"),
  more: () => import("../more/room"),
  site: () => import("../records/room"),
  need: () => import("../need/room"),
  join: () => import("../more/join"),
};

const opened: Partial<Record<RoomName, Room>> = {};

/** Fetch a room's file, so that it can be shown at once. */
export async function openRoom(name: RoomName): Promise<void> {
  opened[name] ??= (await ROOM_FILES[name]()).Room;
}

/** The room the reader is in. */
export function RoomAt({ name, words }: { name: RoomName; words: string[] }) {
  const [, show] = useReducer((times: number) => times + 1, 0);
  useEffect(() => {
    if (opened[name]) return;
    let wanted = true;
    void openRoom(name).then(() => {
      if (wanted) show(undefined);
    });
    return () => {
      wanted = false;
    };
  }, [name]);
  const Room = opened[name];
  return Room ? <Room words={words} /> : null;
}
