/** Alarms that the server pushes: shown in the words they came in, and Tonight opens where one is tapped. */

import { notificationOf, readPushed } from "./pushed";

declare const self: ServiceWorkerGlobalScope;

/** Every message has to show something: browsers take the right to push away from whoever does not. */
export async function showPushed(event: PushEvent): Promise<void> {
  const pushed = readPushed(event.data?.text() ?? "");
  const { title, ...options } = notificationOf(pushed);
  await self.registration.showNotification(title, options);
}

/** A window that shows Tonight comes to the front. Any other is left as it is: somebody may be writing there. */
export async function openTonight(event: NotificationEvent): Promise<void> {
  event.notification.close();
  const windows = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const tonight = windows.find((client) => new URL(client.url).pathname === "/");
  await (tonight ? tonight.focus() : self.clients.openWindow("/"));
}
