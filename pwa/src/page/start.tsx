/** Where the page starts: the reader's choices first, then the night. */

import { render } from "preact";
import "./look/fonts.css";
import "./look/colours.css";
import "./look/page.css";
import "./look/frame.css";
import "./look/head.css";
import "./look/slab.css";
import "./look/lists.css";
import "./look/picture.css";
import { followLight } from "./look/light";
import { followNight } from "./night/night";
import { App } from "./way/app";
import { followAddress } from "./way/way";
import { followLanguage, known, read } from "./words/languages";
import { chooseReader, keepChoices, keptChoices, putChoices } from "./words/reader";

async function start(root: HTMLElement): Promise<void> {
  const chosen = chooseReader(new URLSearchParams(location.search), keptChoices(), navigator.languages, known);
  putChoices(chosen);
  followLight();
  await read(chosen.language);
  followLanguage();
  keepChoices();
  followNight();
  followAddress();
  render(<App />, root);
}

const root = document.getElementById("page");
if (root) void start(root);
