/** Whether every field of every table can be reached on its record's page. */

import { describe, expect, it } from "vitest";
import { groupsOf, TABLES } from "./fields";
import { LAYOUTS } from "./layouts";

/** Turns are read and changed on their program's and station's pages, asked runs and repairs on pages of their own. */
const WITHOUT_A_PAGE: readonly string[] = ["turns", "asked", "repairs"];
/** Groups that one control shows together. */
const TOGETHER: Record<string, string[]> = {
  scope: ["supply", "controller", "hydrozone", "program", "station"],
  span: ["span", "days"],
};

describe("the layout of a record's page", () => {
  it.each(TABLES.filter((table) => !WITHOUT_A_PAGE.includes(table)))("shows every field of %s once", (table) => {
    const groups = (LAYOUTS[table] ?? []).flatMap((section) => section.groups);
    const shown = groups.flatMap((group) => TOGETHER[group] ?? [group]);
    expect(shown.sort()).toEqual(Object.keys(groupsOf(table)).sort());
  });
});
