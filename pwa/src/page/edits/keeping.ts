/** Keeping changes from a screen: what it was told, and why it could not be kept. */

import type { Change } from "../store/shapes";
import { KeepFault, keep } from "./commands";

export type Kept = "kept" | KeepFault["why"];

export async function keepChanges(changes: readonly Change[], said: () => string): Promise<Kept> {
  try {
    await keep([...changes], said);
    return "kept";
  } catch (error) {
    if (error instanceof KeepFault) return error.why;
    throw error;
  }
}
