/** The ground as the cans stand on it: places by column and row, the way somebody walks along them, and their extent. */

export interface Place {
  column: number;
  row: number;
}

/** A can of an audit. `catch` is as it was read, in the audit's own measure; null: not read yet. */
export interface Can extends Place {
  id: string;
  catch: number | null;
}

export interface Extent {
  columns: number;
  rows: number;
}

/** What a document may have: places 0 to 99. */
export const MOST_PLACES = 100;

/** The smallest grid that holds all cans; it never shrinks below `least`. */
export function extentOf(cans: readonly Place[], least: Extent = { columns: 0, rows: 0 }): Extent {
  return {
    columns: Math.max(least.columns, ...cans.map((can) => can.column + 1)),
    rows: Math.max(least.rows, ...cans.map((can) => can.row + 1)),
  };
}

export const isAt = (a: Place, b: Place): boolean => a.column === b.column && a.row === b.row;

export function canAt(cans: readonly Can[], place: Place): Can | undefined {
  return cans.find((can) => isAt(can, place));
}

/** Every place of a grid, row by row. */
export function placesOf({ columns, rows }: Extent): Place[] {
  return Array.from({ length: columns * rows }, (_, at) => ({ column: at % columns, row: Math.floor(at / columns) }));
}

/** Cans in the order in which somebody walks along them: down one row and back along the next. */
export function walked<Kind extends Place>(cans: readonly Kind[]): Kind[] {
  const along = (can: Place) => (can.row % 2 ? -can.column : can.column);
  return [...cans].sort((a, b) => a.row - b.row || along(a) - along(b));
}

/** The next can on the way that was not read yet, after `from` and then from the start; null once all are read. */
export function nextUnread(cans: readonly Can[], from: string | null): Can | null {
  const way = walked(cans);
  const at = way.findIndex((can) => can.id === from);
  const ahead = [...way.slice(at + 1), ...way.slice(0, at + 1)];
  return ahead.find((can) => can.catch === null && can.id !== from) ?? null;
}

/** The can after this one on the way, whether or not it was read. */
export function nextCan(cans: readonly Can[], from: string): Can | null {
  const way = walked(cans);
  return way[way.findIndex((can) => can.id === from) + 1] ?? null;
}

export const readOf = (cans: readonly Can[]): Can[] => cans.filter((can) => can.catch !== null);
