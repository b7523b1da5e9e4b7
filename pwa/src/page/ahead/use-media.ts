/** Whether the screen is wide enough for what only a desk has room for. */

import { useEffect, useState } from "preact/hooks";

export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const look = () => setHolds(media.matches);
    look();
    media.addEventListener("change", look);
    return () => media.removeEventListener("change", look);
  }, [query]);
  return holds;
}
