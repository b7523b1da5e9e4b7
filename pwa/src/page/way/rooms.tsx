/** The rooms, each a file of its own that is fetched when somebody first enters it; the service worker keeps them all. */

import type { ComponentType } from "preact";
import { useEffect, useReducer } from "preact/hooks";
import { read } from "../words/languages";
import { language } from "../words/reader";
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
  "wet-check": () => import("../wet-check/room"),
  join: () => import("../more/join"),
};

const opened: Partial<Record<RoomName, Room>> = {};

/** Fetch a room's file and what is said in it, so that it can be shown at once. */
export async function openRoom(name: RoomName): Promise<void> {
  const [{ Room }] = await Promise.all([ROOM_FILES[name](), name === "tonight" ? null : allSentences()]);
  opened[name] ??= Room;
}

/** Without them, which is a broken line on a first visit, the room speaks English. */
async function allSentences(): Promise<void> {
  await read(language.peek()).catch(() => undefined);
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
