/** A year’s water. */

export function BudgetPage(_: { words: string[] }) {
  return null;
}
