/** What a pushed message says, and the notification that shows it. Plain functions, tested without a browser. */

export interface Pushed {
  site: string;
  alarm: string;
  /** The site's name, as people typed it. */
  title: string;
  /** The sentence, in the reader's language and units. */
  text: string;
  language: string;
  gravity: "minor" | "serious" | "grave";
}

const NAME = "Pengan";
const ICON = "/icon-192.png";
const RIGHT_TO_LEFT = /^(?:ar|fa|he|ur|ps|sd|ug|yi|dv|ckb)(?:-|$)/;

/** A message that cannot be read is shown as one without words: that something came is worth knowing. */
export function readPushed(text: string): Pushed | null {
  try {
    const read: unknown = JSON.parse(text);
    const whole = typeof read === "object" && read !== null && "alarm" in read && "text" in read;
    return whole ? (read as Pushed) : null;
  } catch {
    return null;
  }
}

/** One alarm has one notification: the same told again takes its place, and makes no second sound. */
export function notificationOf(pushed: Pushed | null): NotificationOptions & { title: string } {
  if (!pushed) return { title: NAME, icon: ICON, tag: NAME };
  return {
    title: pushed.title || NAME,
    body: pushed.text,
    lang: pushed.language,
    dir: RIGHT_TO_LEFT.test(pushed.language) ? "rtl" : "ltr",
    tag: pushed.alarm,
    icon: ICON,
    requireInteraction: pushed.gravity === "grave",
    data: pushed,
  };
}
