/** Whether this device is called when something is wrong, by the browser's push service. */

import { getJson, sendJson } from "../line/fetching";
import { language } from "../words/reader";

/** `cannot`: this browser has no push, or only for an app on the Home Screen. `denied`: its person said no. */
export type Calls = "cannot" | "denied" | "off" | "on";

interface PushKey {
  key: string;
  subscribed: boolean | null;
}

const KEY = "/api/push/key";
const SUBSCRIPTION = "/api/push/subscription";
export const WISHES = "/api/push/wishes";

/** How a person wants to be called, on all their devices. Times are `22:00`, on the wall of the site. */
export interface Wishes {
  least: Gravity;
  quiet_from: string | null;
  quiet_to: string | null;
  quiet_but: Gravity | null;
}
export type Gravity = "minor" | "serious" | "grave";

/** How things stand. Raises `LineFault`. */
export async function callsNow(): Promise<Calls> {
  if (!canBeCalled()) return "cannot";
  if (Notification.permission === "denied") return "denied";
  const worker = await navigator.serviceWorker.getRegistration();
  const here = await worker?.pushManager.getSubscription();
  const { subscribed } = await getJson<PushKey>(KEY, language.peek());
  return here && subscribed ? "on" : "off";
}

export function canBeCalled(): boolean {
  return "serviceWorker" in navigator && "PushManager" in globalThis && "Notification" in globalThis;
}

/** Ask the person, by the browser's own question, and let the server call. Only a tap may ask. Raises `LineFault`, and
 * `DOMException` where the browser's push service does not answer. */
export async function beCalled(): Promise<Calls> {
  if (!canBeCalled()) return "cannot";
  if ((await Notification.requestPermission()) !== "granted") return "denied";
  const { key } = await getJson<PushKey>(KEY, language.peek());
  const worker = await navigator.serviceWorker.ready;
  const asked = { userVisibleOnly: true, applicationServerKey: bytesOf(key) };
  const subscription = await worker.pushManager.subscribe(asked);
  await sendJson<void>("PUT", SUBSCRIPTION, subscription.toJSON(), language.peek());
  return "on";
}

/** The server first: a device that it still calls would be told of alarms for nothing. Raises `LineFault`. */
export async function beCalledNoMore(): Promise<Calls> {
  await sendJson<void>("DELETE", SUBSCRIPTION, {}, language.peek());
  const worker = await navigator.serviceWorker.getRegistration();
  await (await worker?.pushManager.getSubscription())?.unsubscribe();
  return "off";
}

/** base64url (RFC 4648, section 5) as bytes. */
export function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  const plain = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(plain, (sign) => sign.charCodeAt(0));
}

export const putWishes = (wishes: Wishes): Promise<Wishes> => sendJson<Wishes>("PUT", WISHES, wishes, language.peek());
