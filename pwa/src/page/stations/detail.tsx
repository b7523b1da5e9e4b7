/** The frame of every page about a station: its head with the way back, and its body, read from the top. */

import type { ComponentChildren } from "preact";
import { useLayoutEffect } from "preact/hooks";
import { RoomHead } from "../way/room-head";

interface DetailProps {
  title: ComponentChildren;
  sub?: ComponentChildren;
  children: ComponentChildren;
}

export function Detail({ title, sub, children }: DetailProps) {
  useLayoutEffect(() => window.scrollTo(0, 0), []);
  return (
    <div class="station-detail">
      <RoomHead title={title} sub={sub} back="stations" />
      {children}
    </div>
  );
}
