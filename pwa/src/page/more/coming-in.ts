/** Coming in by a code or a password, and going out again. */

import { signal } from "@preact/signals";
import { sendJson } from "../line/fetching";
import { copy, person } from "../store/queries";
import { lookAt, personChanged, signedOut } from "../sync/follow";
import { becomes } from "../sync/phone";
import { choices, language } from "../words/reader";
import { typedCode } from "./codes";
import { forgetLists } from "./known-list";
import { profileOf } from "./profile-fields";
import { type Session, session } from "./session";

export interface JoinDraft {
  code: string;
  name: string;
  device: string;
  signInName: string;
}

const DRAFT = "pengan.joining";

/** What was typed so far: it outlives a reload and the time without signal. A password is not among it. */
export const draft = signal<JoinDraft>(keptDraft());

export function putDraft(part: Partial<JoinDraft>): void {
  draft.value = { ...draft.peek(), ...part };
  sessionStorage.setItem(DRAFT, JSON.stringify(draft.peek()));
}

function keptDraft(): JoinDraft {
  const empty = { code: "", name: "", device: "", signInName: "" };
  try {
    return { ...empty, ...(JSON.parse(sessionStorage.getItem(DRAFT) ?? "{}") as Partial<JoinDraft>) };
  } catch {
    // Without storage nothing was kept.
    return empty;
  }
}

/** Raises `LineFault`, in the server's words. */
export async function join(device: string): Promise<void> {
  const { code, name } = draft.peek();
  const profile = profileOf(person.peek()?.name || name.trim(), choices());
  const body = { ...profile, code: typedCode(code).whole ?? code, device_name: device };
  await enter(await sendJson<Session>("POST", "/api/invitations/join", body, language.peek()));
}

/** Raises `LineFault`. */
export async function signIn(password: string, device: string): Promise<void> {
  const body = { name: draft.peek().signInName.trim(), password, device_name: device };
  await enter(await sendJson<Session>("POST", "/api/session", body, language.peek()));
}

/** The device is let in no more. What was not sent stays on it, and belongs to the person. Raises `LineFault`. */
export async function signOut(): Promise<void> {
  await sendJson("DELETE", "/api/session", undefined, language.peek());
  session.value = null;
  forgetLists();
  await signedOut();
}

/** From here on the phone is this person's, and what it has of the site is fetched. */
async function enter(answer: Session): Promise<void> {
  const before = new Set(person.peek()?.sites.map(({ site }) => site));
  session.value = answer;
  forgetLists();
  await becomes(answer);
  const added = answer.sites.find(({ site }) => !before.has(site));
  if (added && copy.peek()?.site !== added.site) await lookAt(added.site);
  personChanged();
  putDraft({ code: "", name: "", signInName: "" });
}
