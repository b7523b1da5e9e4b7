import { describe, expect, it } from "vitest";
import { choiceWord } from "./choice-words";
import { fieldHelp } from "./field-helps";
import { fieldLabel } from "./field-labels";
import { fieldsOf, TABLES } from "./fields";
import { addLabel, countOf, newTitle, noneYet, tableAbout, tableTitle } from "./table-words";

describe("words for the document", () => {
  it.each(TABLES)("every field of %s has a label and a line of help", (table) => {
    for (const field of Object.keys(fieldsOf(table))) {
      expect(fieldLabel(table, field), `${table}.${field}`).not.toBe(field);
      expect(fieldHelp(table, field), `${table}.${field}`).not.toBe("");
    }
  });

  it.each(TABLES)("every choice of %s has a word", (table) => {
    for (const [field, { choices = [] }] of Object.entries(fieldsOf(table))) {
      for (const choice of choices) expect(choiceWord(table, field, choice)).not.toBe(choice);
    }
  });

  it.each(TABLES)("the table %s has its sentences", (table) => {
    const said = [tableTitle, tableAbout, newTitle, addLabel, noneYet].map((word) => word(table));
    expect(said.every(Boolean)).toBe(true);
    expect(countOf(table, 1)).not.toBe(countOf(table, 2));
  });
});
