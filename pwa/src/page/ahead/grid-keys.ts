/** Arrow keys in the grid: one field is reached by the tab key, the arrows lead on from there. */

import { catalogue } from "../words/catalogue";
import { step } from "./grid";

export function followKeys(event: KeyboardEvent): void {
  const grid = event.currentTarget as HTMLElement;
  const field = (event.target as HTMLElement).closest<HTMLElement>("[data-line]");
  if (!field) return;
  const lines = grid.querySelectorAll("tbody tr").length;
  const columns = grid.querySelectorAll("tbody tr:first-child [data-line]").length;
  const spot = { line: Number(field.dataset.line), column: Number(field.dataset.column) };
  const to = step(spot, event.key, lines, columns, catalogue.value.direction === "rtl");
  if (!to) return;
  event.preventDefault();
  const next = grid.querySelector<HTMLElement>(`[data-line="${to.line}"][data-column="${to.column}"]`);
  if (!next) return;
  field.tabIndex = -1;
  next.tabIndex = 0;
  next.focus();
}
