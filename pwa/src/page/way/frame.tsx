/** What stands around every room: the way to the five rooms, below on a phone and beside on a tablet and a desk. */

import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { tray } from "../edits/commands";
import { Announcer } from "../shell/announcer";
import { openAlarms, waitingCount } from "../store/queries";
import { Mark } from "../tonight/mark";
import { t, tn } from "../words/catalogue";
import { later } from "./later";
import { RoomIcon } from "./room-icon";
import { go, type RoomName, room } from "./way";

/** It knows the words of every field and fault, and nothing is in it when the app opens. */
const TrayLine = later(() => import("../edits/tray-line").then((file) => file.TrayLine));

const CALM_MS = 4000;

const SHOWN = ["tonight", "stations", "ahead", "changes", "more"] as const;

export function Frame({ children }: { children: ComponentChildren }) {
  const foot = useMeasuredFoot();
  useEffect(() => {
    document.title = t("{room}, Pengan", { room: roomTitle(room.value) });
  });
  return (
    <div class="frame">
      <a class="skip" href="#room">
        {t("Skip to the room")}
      </a>
      <div class="foot" ref={foot}>
        <nav class="rooms" aria-label={t("Rooms")}>
          <span class="rooms-mark">
            <Mark />
          </span>
          {SHOWN.map((name) => (
            <RoomLink key={name} name={name} />
          ))}
        </nav>
        {useCalm() || tray.value ? <TrayLine /> : null}
      </div>
      <div class="room" id="room" tabIndex={-1}>
        {children}
      </div>
      <Announcer />
    </div>
  );
}

/** Whatever stands on the foot of a phone's screen stands above it, however many lines its words take. */
function useMeasuredFoot() {
  const foot = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!foot.current) return;
    const watch = new ResizeObserver(([seen]) => {
      const height = seen?.borderBoxSize[0]?.blockSize;
      if (height) document.documentElement.style.setProperty("--foot", `${height}px`);
    });
    watch.observe(foot.current);
    return () => watch.disconnect();
  }, []);
  return foot;
}

/** Whether the first screen has stood for a while. */
function useCalm(): boolean {
  const [calm, rest] = useState(false);
  useEffect(() => {
    const timer = setTimeout(rest, CALM_MS, true);
    return () => clearTimeout(timer);
  }, []);
  return calm;
}

function RoomLink({ name }: { name: RoomName }) {
  const here = room.value === name;
  const alarms = name === "tonight" ? openAlarms.value : 0;
  const waiting = name === "changes" ? waitingCount.value : alarms;
  return (
    <button type="button" class="room-link" aria-current={here ? "page" : undefined} onClick={() => go(name)}>
      <span class="room-icon-place">
        <RoomIcon name={name} />
        {waiting ? (
          <span class="room-count" aria-hidden="true">
            {waiting}
          </span>
        ) : null}
      </span>
      <span class="room-name">{roomTitle(name)}</span>
      {waiting ? <span class="unseen">{countWords(waiting, alarms)}</span> : null}
    </button>
  );
}

function countWords(count: number, alarms: number): string {
  return alarms ? tn("{count} alarm", "{count} alarms", alarms) : tn("{count} waits", "{count} wait", count);
}

export function roomTitle(name: RoomName): string {
  const titles: Record<RoomName, string> = {
    tonight: t("Tonight"),
    stations: t("Stations"),
    ahead: t("Ahead"),
    changes: t("Changes"),
    more: t("More"),
    site: t("Site"),
    need: t("Water need"),
    "wet-check": t("Wet check"),
    join: t("Join"),
  };
  return titles[name];
}
