/** The pages of this room: each with its word in the address, its title, and whom it is for. */

import type { ComponentType } from "preact";
import { Cautions } from "../help/cautions";
import { FirstSteps } from "../help/first-steps";
import { HelpPage } from "../help/help-page";
import { LostPhone } from "../help/lost-phone";
import { copy, person } from "../store/queries";
import { later } from "../way/later";
import { t } from "../words/catalogue";
import { About } from "./about";
import { Devices } from "./devices";
import { Invite } from "./invite";
import { Member } from "./member";
import { Password } from "./password";
import { Settings } from "./settings";
import { SignOut } from "./sign-out";
import { Team } from "./team";

export interface Page {
  title: () => string;
  /** A line under the title in the list; absent: the page is reached from another. */
  about?: () => string;
  Body: ComponentType<{ words: string[] }>;
  /** It is about the reader and their crew, and stands before the site's records. */
  own?: true;
  /** Whom it is for; absent: everybody. */
  for?: () => boolean;
}

const signedIn = () => person.value !== null;
const managing = () => copy.value?.role === "manager";

type Pages = Readonly<Record<string, Page>>;

const OF_PEOPLE: Pages = {
  settings: {
    title: () => t("Settings"),
    about: () => t("Language, units, clock, digits, light"),
    own: true,
    Body: Settings,
  },
  team: {
    title: () => t("Team"),
    about: () => t("People, roles, invitations"),
    own: true,
    Body: ({ words }) => (words[0] ? <Member id={words[0]} /> : <Team />),
    for: signedIn,
  },
  devices: {
    title: () => t("My devices"),
    about: () => t("End one, or let the next one in"),
    own: true,
    Body: Devices,
    for: signedIn,
  },
  invite: { title: () => t("Invite somebody"), Body: Invite, for: managing },
  password: {
    title: () => t("Password"),
    about: () => t("A manager’s way back in"),
    Body: Password,
    for: managing,
  },
};

/** What happened at the site, fetched when it is first looked at. */
const OF_NIGHTS: Pages = {
  alarms: {
    title: () => t("Alarms"),
    about: () => t("What readings show to be wrong, and what people did"),
    Body: later(() => import("../alarms/page").then((file) => file.AlarmsPage)),
    for: () => copy.value !== null,
  },
  journal: {
    title: () => t("Journal"),
    about: () => t("What happened, night by night"),
    Body: later(() => import("../journal/page").then((file) => file.JournalPage)),
    for: () => signedIn() && copy.value !== null,
  },
  used: {
    title: () => t("What was used"),
    about: () => t("Planned, delivered and lost water, meters, what faults cost"),
    Body: later(() => import("../used/page").then((file) => file.UsedPage)),
    for: () => copy.value !== null,
  },
};

const OF_THE_APP: Pages = {
  help: { title: () => t("Help"), about: () => t("What each room is for"), Body: HelpPage },
  "first-steps": {
    title: () => t("First steps"),
    about: () => t("From an empty site to the first night"),
    Body: FirstSteps,
  },
  "lost-phone": {
    title: () => t("A phone is lost"),
    about: () => t("What to do, and what stays safe"),
    Body: LostPhone,
  },
  cautions: { title: () => t("Cautions"), about: () => t("Water, pressure, electricity"), Body: Cautions },
  about: { title: () => t("About this app"), about: () => t("Versions, and ready for offline"), Body: About },
  "sign-out": {
    title: () => t("Sign out"),
    about: () => t("What is unsent stays on this phone"),
    Body: SignOut,
    for: signedIn,
  },
};

/** In the order of the list. */
export const PAGES: Pages = { ...OF_PEOPLE, ...OF_NIGHTS, ...OF_THE_APP };

/** The page that a word of the address names, where it is for whoever reads. */
export function pageAt(word: string | undefined): Page | undefined {
  const found = word === undefined ? undefined : PAGES[word];
  return found && (found.for?.() ?? true) ? found : undefined;
}
