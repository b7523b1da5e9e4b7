/** Day, night or full sun, and how large the text is: the reader's choice, or what the device asks for. */

import { effect } from "@preact/signals";
import { light, textSize } from "../words/reader";

export function followLight(): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const put = () => {
    document.documentElement.dataset.light = light.value || (dark.matches ? "night" : "day");
  };
  effect(put);
  effect(() => {
    document.documentElement.dataset.text = textSize.value;
  });
  dark.addEventListener("change", put);
}
