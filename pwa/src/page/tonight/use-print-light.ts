/** On paper the sunlight theme: white ground, black outlines. */

import { useEffect } from "preact/hooks";

export function usePrintLight(): void {
  useEffect(() => {
    const root = document.documentElement.dataset;
    let before: string | undefined;
    const put = () => {
      before = root.light;
      root.light = "sun";
    };
    const back = () => {
      if (before) root.light = before;
    };
    addEventListener("beforeprint", put);
    addEventListener("afterprint", back);
    return () => {
      removeEventListener("beforeprint", put);
      removeEventListener("afterprint", back);
    };
  }, []);
}
