/** Devices, team and invitations: what the screens of this room ask the server for, and have it do. */

import { sendJson } from "../line/fetching";
import { person } from "../store/queries";
import type { Role } from "../store/shapes";
import { language } from "../words/reader";
import { type KnownAnswer, type KnownList, knownAnswer, knownList } from "./known-list";

export interface Device {
  id: string;
  name: string;
  enrolled_at: number;
  seen_at: number;
  this_one: boolean;
}

export interface TeamMember {
  id: string;
  name: string;
  role: Role;
}

export interface Invitation {
  id: string;
  role: Role;
  name: string | null;
  made_at: number;
  expires_at: number;
}

/** A new code; it is told this once. */
export interface Invited {
  id: string;
  code: string;
  expires_at: number;
  address: string;
  qr: string;
}

export interface SiteLine {
  id: string;
  name: string;
}

/** What runs on the server. */
export interface Versions {
  version: string;
  planner: string;
  zone_data: string;
}

const me = () => person.value?.id ?? "";
const at = (id: string) => encodeURIComponent(id);

export const ownDevices = (): KnownList<Device> => knownList(me(), "/api/devices");
export const devicesOf = (who: string): KnownList<Device> => knownList(me(), `/api/people/${at(who)}/devices`);
export const teamOf = (site: string): KnownList<TeamMember> => knownList(me(), `/api/people?site=${at(site)}`);
export const invitationsTo = (site: string): KnownList<Invitation> =>
  knownList(me(), `/api/invitations?site=${at(site)}`);
export const readableSites = (): KnownList<SiteLine> => knownList(me(), "/api/sites");

export const serverVersions = (): KnownAnswer<Versions> => knownAnswer("", "/api/about");

export const endOwnDevice = (id: string) => act("DELETE", `/api/devices/${at(id)}`);
export const endOtherDevices = () => act("DELETE", "/api/devices");
export const endDeviceOf = (who: string, id: string) => act("DELETE", `/api/people/${at(who)}/devices/${at(id)}`);
export const nextDeviceCode = () => act<Invited>("POST", "/api/devices/code");
export const deviceCodeFor = (who: string) => act<Invited>("POST", `/api/people/${at(who)}/code`);
export const invite = (site: string, role: Role, name: string) =>
  act<Invited>("POST", "/api/invitations", { site, role, name: name.trim() || null });
export const withdraw = (id: string) => act("DELETE", `/api/invitations/${at(id)}`);
/** No role takes the person off the site. */
export const giveRole = (who: string, site: string, role: Role | null) =>
  act("PUT", `/api/people/${at(who)}/role`, { site, role });
export const removeFromTeam = (who: string) => act("DELETE", `/api/people/${at(who)}`);
export const setPassword = (name: string, password: string, present: string) =>
  act("PUT", "/api/session/password", { name, password, present_password: present || null });

function act<Answer = void>(method: "POST" | "PUT" | "DELETE", path: string, body: unknown = {}): Promise<Answer> {
  return sendJson<Answer>(method, path, body, language.peek());
}
