/** Who is signed in on this phone, as the server says it: asked when there is a line, and remembered for when there is none. */

import { signal } from "@preact/signals";
import { getJson, sendJson } from "../line/fetching";
import { person } from "../store/queries";
import type { Role } from "../store/shapes";
import { language } from "../words/reader";
import type { Profile } from "./profile-fields";

export interface Session {
  person: string;
  device: string;
  team: string;
  profile: Profile;
  sign_in_name: string | null;
  sites: { site: string; role: Role; scope: number }[];
}

/** As last answered while this page was open. */
export const session = signal<Session | null>(null);

export async function askSession(): Promise<Session> {
  return known(await getJson<Session>("/api/session", language.peek()));
}

export async function putProfile(profile: Profile): Promise<Session> {
  return known(await sendJson<Session>("PUT", "/api/session/profile", profile, language.peek()));
}

/** Another name for oneself; the rest of the profile stays. */
export async function rename(name: string): Promise<void> {
  const now = session.peek() ?? (await askSession());
  await putProfile({ ...now.profile, name });
}

function known(answer: Session): Session {
  session.value = answer;
  const before = person.peek();
  if (before?.id === answer.person && before.name !== answer.profile.name) {
    person.value = { ...before, name: answer.profile.name };
  }
  return answer;
}
