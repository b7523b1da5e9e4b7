/** A component in a file of its own, fetched when it is first shown: until then nothing stands in its place. */

import type { ComponentType } from "preact";
import { useEffect, useReducer } from "preact/hooks";

export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let Known: ComponentType<Props> | null = null;
  return function Later(props: Props) {
    const [, show] = useReducer((times: number) => times + 1, 0);
    useEffect(() => {
      if (Known) return;
      void load().then((loaded) => {
        Known = loaded;
        show(undefined);
      });
    }, []);
    return Known ? <Known {...props} /> : null;
  };
}
