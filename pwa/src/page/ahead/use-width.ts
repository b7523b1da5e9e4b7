/** How wide an element is, as it changes: drawings of one list share the measure. */

import { useLayoutEffect, useRef, useState } from "preact/hooks";

export function useWidth<Kind extends Element>(): { ref: { current: Kind | null }; width: number } {
  const ref = useRef<Kind>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const look = () => setWidth(Math.round(element.getBoundingClientRect().width));
    look();
    const watch = new ResizeObserver(look);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, width };
}
