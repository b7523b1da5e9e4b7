/** Drought. */

export function DroughtPage(_: { words: string[] }) {
  return null;
}
