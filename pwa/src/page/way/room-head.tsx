/** The head of every room: its name, a line below it, the way back, and how the line to the server is. */

import type { ComponentChildren } from "preact";
import { Help } from "../help/help";
import { Banners } from "../shell/banners";
import { SyncChip } from "../shell/sync-chip";
import { Mark } from "../tonight/mark";
import { t } from "../words/catalogue";
import { back as goBack, type RoomName } from "./way";

interface RoomHeadProps {
  title: ComponentChildren;
  sub?: ComponentChildren;
  /** The room that the way back leads to where the app was opened right here. Absent: a room of its own. */
  back?: RoomName;
  /** What else the head holds, on a line of its own. */
  children?: ComponentChildren;
}

export function RoomHead({ title, sub, back, children }: RoomHeadProps) {
  return (
    <header class="room-top">
      <div class={back ? "room-head room-head-inside" : "room-head"}>
        {back ? <WayBack to={back} /> : <Mark />}
        <div class="room-head-names">
          <h1>{title}</h1>
          {sub ? <p>{sub}</p> : null}
        </div>
        <SyncChip />
        <Help />
        {children ? <div class="room-head-more">{children}</div> : null}
      </div>
      <Banners />
    </header>
  );
}

function WayBack({ to }: { to: RoomName }) {
  return (
    <button type="button" class="way-back" onClick={() => goBack(to)}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M15 4L7 12L15 20" />
      </svg>
      <span>{t("Back")}</span>
    </button>
  );
}
