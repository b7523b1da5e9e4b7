/** Whether the app is installed, how it can be, and whether the browser promised to keep what it holds. */

import { signal } from "@preact/signals";
import { keeping } from "../store/queries";

/** `prompt`: the browser offers it. `share`: iOS has it under Share alone. `menu`: a browser's own menu may have it. */
export type InstallWay = "installed" | "prompt" | "share" | "menu";

/** Not in TypeScript's own list: Chromium alone has it (W3C, Manifest Incubations). */
interface InstallPromptEvent extends Event {
  prompt(): Promise<{ outcome: "accepted" | "dismissed" }>;
}

export const installWay = signal<InstallWay>("menu");

let offered: InstallPromptEvent | null = null;

export function followInstalling(): void {
  installWay.value = standsAlone() ? "installed" : isApple() ? "share" : "menu";
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offered = event as InstallPromptEvent;
    installWay.value = "prompt";
  });
  addEventListener("appinstalled", () => {
    installWay.value = "installed";
    void askToKeep();
  });
  void lookWhetherKept();
}

export async function install(): Promise<void> {
  const event = offered;
  offered = null;
  if (!event) return;
  const { outcome } = await event.prompt();
  installWay.value = outcome === "accepted" ? "installed" : "menu";
}

function standsAlone(): boolean {
  return (
    matchMedia("(display-mode: standalone)").matches || (navigator as { standalone?: boolean }).standalone === true
  );
}

/** An iPad calls itself a Mac, but has fingers. */
function isApple(): boolean {
  return (
    /iPhone|iPad|iPod/.test(navigator.userAgent) || (/Mac/.test(navigator.userAgent) && navigator.maxTouchPoints > 1)
  );
}

async function lookWhetherKept(): Promise<void> {
  if (!navigator.storage?.persisted) return;
  keeping.value = (await navigator.storage.persisted()) ? "persistent" : "at_risk";
  if (keeping.peek() === "at_risk" && installWay.peek() === "installed") await askToKeep();
}

/** Ask the browser to keep what is stored here. Its answer is in `keeping`. */
export async function askToKeep(): Promise<void> {
  if (!navigator.storage?.persist) return;
  keeping.value = "asking";
  keeping.value = (await navigator.storage.persist().catch(() => false)) ? "persistent" : "at_risk";
}
