import { describe, expect, it } from "vitest";
import { type Can, canAt, extentOf, nextCan, nextUnread, placesOf, walked } from "./grid";

function cans(...rows: (number | null)[][]): Can[] {
  return rows.flatMap((row, y) => row.map((value, x) => ({ id: `${x}.${y}`, column: x, row: y, catch: value })));
}

describe("the grid of cans", () => {
  it("is as large as its cans, and as large as it was asked to be", () => {
    expect(extentOf(cans([1, 2, 3], [4, 5, 6]))).toEqual({ columns: 3, rows: 2 });
    expect(extentOf([{ column: 4, row: 0 }], { columns: 2, rows: 3 })).toEqual({ columns: 5, rows: 3 });
    expect(extentOf([])).toEqual({ columns: 0, rows: 0 });
  });

  it("has every place once, row by row", () => {
    const places = placesOf({ columns: 3, rows: 2 });
    expect(places).toHaveLength(6);
    expect(places[3]).toEqual({ column: 0, row: 1 });
  });

  it("finds the can in a place, and none where there is none", () => {
    expect(canAt(cans([1, 2], [3, 4]), { column: 1, row: 1 })?.catch).toBe(4);
    expect(canAt(cans([1, 2]), { column: 0, row: 1 })).toBeUndefined();
  });

  it("is walked down one row and back along the next", () => {
    expect(walked(cans([1, 2, 3], [4, 5, 6])).map((can) => can.catch)).toEqual([1, 2, 3, 6, 5, 4]);
  });

  it("leads to the next can that was not read, and around to those that were passed over", () => {
    const all = cans([1, null, 3], [null, 5, 6]);
    expect(nextUnread(all, "0.0")?.id).toBe("1.0");
    expect(nextUnread(all, "1.0")?.id).toBe("0.1");
    expect(nextUnread(all, "0.1")?.id).toBe("1.0");
    expect(nextUnread(all, null)?.id).toBe("1.0");
    expect(nextUnread(cans([1, 2]), "0.0")).toBeNull();
  });

  it("knows the can after the last is none", () => {
    const all = cans([1, 2], [3, 4]);
    expect(nextCan(all, "1.0")?.id).toBe("1.1");
    expect(nextCan(all, "0.1")).toBeNull();
  });
});
