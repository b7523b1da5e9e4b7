/** The whole app: the frame, and in it the room the reader is in. */

import { Frame } from "./frame";
import { RoomAt } from "./rooms";
import { place } from "./way";

export function App() {
  const { room, words } = place.value;
  return (
    <Frame>
      <RoomAt name={room} words={words} />
    </Frame>
  );
}
