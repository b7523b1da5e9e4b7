/** Seasonal percentages as the last days' weather suggests them. */

export function SuggestedPage(_: { words: string[] }) {
  return null;
}
