/** Years and months as the budget names them. A month is `YYYY-MM`. */

import { numberFormat, wallFormat } from "../../words/formats";

/** Years are not grouped. */
export function yearName(year: number): string {
  return numberFormat({ useGrouping: false }).format(year);
}

export const monthWords = (month: string): string => wallFormat({ month: "long" }).format(middle(month));
export const monthMark = (month: string): string => wallFormat({ month: "narrow" }).format(middle(month));

function middle(month: string): Date {
  return new Date(`${month}-15T12:00:00Z`);
}
