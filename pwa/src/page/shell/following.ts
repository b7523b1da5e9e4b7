/** Begins what keeps the app on the phone, once the first screen stands and has the line to itself no more. */

import { followInstalling } from "./installing";
import { followWorker } from "./registering";

const CALM_MS = 1000;

export function followShell(): void {
  followInstalling();
  if (!import.meta.env.PROD) return;
  const begin = () => setTimeout(() => void followWorker(), CALM_MS);
  if (document.readyState === "complete") begin();
  else addEventListener("load", begin, { once: true });
}
