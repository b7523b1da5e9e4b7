/** Day, night or full sun: the reader's choice, or what the device asks for. */

import { effect } from "@preact/signals";
import { light } from "../words/reader";

export function followLight(): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const put = () => {
    document.documentElement.dataset.light = light.value || (dark.matches ? "night" : "day");
  };
  effect(put);
  dark.addEventListener("change", put);
}
