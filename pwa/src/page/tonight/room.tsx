/** The room that opens first: tonight. */

import { Screen } from "./screen";

export function Room(_: { words: string[] }) {
  return <Screen />;
}
