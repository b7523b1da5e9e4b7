/** Whether a media query holds, now and from now on. */

import { useEffect, useState } from "preact/hooks";

export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const look = () => setHolds(media.matches);
    media.addEventListener("change", look);
    return () => media.removeEventListener("change", look);
  }, [query]);
  return holds;
}
