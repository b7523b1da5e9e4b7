/** The reader's choices belong to the person as much as to the phone: sent to their profile, and taken from it. */

import { effect } from "@preact/signals";
import { LineFault } from "../line/fetching";
import { line, person } from "../store/queries";
import { known } from "../words/languages";
import { choices, matchLanguage, putChoices } from "../words/reader";
import { type Profile, profileOf, type Spoken, spokenOf } from "./profile-fields";
import { askSession, putProfile } from "./session";

/** The person whose choices were changed here and have not reached the server. */
const UNSENT = "pengan.reader.unsent";
const WAIT_MS = 500;

let said = "";
let timer: ReturnType<typeof setTimeout> | undefined;

/** From now on. What is changed last, on whichever device, holds; what was changed here without a line is not lost. */
export function followProfile(): void {
  said = JSON.stringify(spokenNow());
  effect(() => noteChange(JSON.stringify(spokenNow())));
  effect(() => {
    if (person.value && line.value.now === "in_step") soon();
  });
}

function noteChange(now: string): void {
  if (now === said) return;
  said = now;
  const who = person.peek();
  if (!who) return;
  localStorage.setItem(UNSENT, who.id);
  soon();
}

function soon(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void agree(), WAIT_MS);
}

/** Bring phone and profile together. Without a line it is tried again when there is one. */
export async function agree(): Promise<void> {
  const who = person.peek();
  if (!who) return;
  try {
    if (localStorage.getItem(UNSENT) === who.id) await send(who.name);
    else take((await askSession()).profile);
  } catch (error) {
    if (!(error instanceof LineFault)) throw error;
    // Kept on this phone; the next word with the server tries again.
  }
}

async function send(name: string): Promise<void> {
  const sent = JSON.stringify(spokenNow());
  await putProfile(profileOf(name, JSON.parse(sent) as Spoken));
  if (sent === said) localStorage.removeItem(UNSENT);
  else soon();
}

/** What the page's address asks for stays as it is: it was asked for last, and for this page alone. */
export function take(profile: Profile, address = new URLSearchParams(location.search)): void {
  const { language, ...rest } = spokenOf(profile);
  const tag = matchLanguage(language, known);
  const wanted = { ...rest, ...(tag ? { language: tag } : {}) };
  const named = {
    language: "language",
    units: "units",
    ownUnits: "units",
    hours: "hours",
    firstDay: "first_day",
    digits: "digits",
  };
  const free = Object.entries(wanted).filter(([field]) => !address.has(named[field as keyof typeof named]));
  said = JSON.stringify({ ...spokenNow(), ...Object.fromEntries(free) });
  putChoices(Object.fromEntries(free));
}

function spokenNow(): Spoken {
  const { language, units, ownUnits, hours, firstDay, digits } = choices();
  return { language, units, ownUnits, hours, firstDay, digits };
}
