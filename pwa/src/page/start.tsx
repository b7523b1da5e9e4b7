/** Where the page starts: the reader's choices and what the phone holds first, then the screen, then the server. */

import { computed, effect } from "@preact/signals";
import { render } from "preact";
import "./look/fonts.css";
import "./look/colours.css";
import "./look/page.css";
import "./look/frame.css";
import "./look/head.css";
import "./look/banners.css";
import "./look/slab.css";
import "./look/lists.css";
import "./look/picture.css";
import { followLight } from "./look/light";
import { followProfile } from "./more/own-profile";
import { followNight, loaded } from "./night/night";
import { followPlanner } from "./planner/beginning";
import { followShell } from "./shell/following";
import { followJournal, followServer } from "./sync/follow";
import { openPhone } from "./sync/phone";
import { App } from "./way/app";
import { openRoom } from "./way/rooms";
import { followAddress, room } from "./way/way";
import { followLanguage, known, read, readFirst, readRest } from "./words/languages";
import { warmClock } from "./words/moments";
import { chooseReader, keepChoices, keptChoices, putChoices } from "./words/reader";

async function start(root: HTMLElement): Promise<void> {
  const chosen = chooseReader(new URLSearchParams(location.search), keptChoices(), navigator.languages, known);
  putChoices(chosen);
  followLight();
  followAddress();
  // Without its sentences, which is a broken line on a first visit, the page speaks English; a room is asked for again.
  const words = (room.peek() === "tonight" ? readFirst : read)(chosen.language).catch(() => undefined);
  const first = openRoom(room.peek()).catch(() => undefined);
  const held = openPhone(new URLSearchParams(location.search).get("site"));
  warmClock();
  await Promise.all([words, first, held]);
  followLanguage();
  keepChoices();
  followNight();
  render(<App />, root);
  followServer();
  followProfile();
  followShell();
  followPlanner();
  effect(() => {
    if (!stands.value) return;
    readRest();
    setTimeout(followJournal, JOURNAL_AFTER_MS);
  });
}

/** By then the night is drawn. */
const JOURNAL_AFTER_MS = 1500;

/** The night is there, and with it what most people open the app for. */
const stands = computed(() => loaded.value !== null);

const root = document.getElementById("page");
if (root) void start(root);
