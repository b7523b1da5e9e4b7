import { expect, it } from "vitest";
import table from "../../../../fixtures/units/written.json";
import english from "../../../generated/catalogues/en.json";
import spanish from "../../../generated/catalogues/es.json";
import { type Catalogue, catalogue } from "./catalogue";
import { duration } from "./durations";
import { language, type UnitSet, units } from "./reader";
import { amount } from "./units";

type Row = [tag: string, set: UnitSet, quantity: string, base: number, written: string];

/** The server writes this table from its own units layer, so that both write the same. */
it("writes amounts as the server does", () => {
  const differing = (table as Row[]).filter(([tag, set, quantity, base, written]) => {
    catalogue.value = (tag === "es" ? spanish : english) as unknown as Catalogue;
    language.value = tag;
    units.value = set;
    return (quantity === "duration" ? duration(base) : amount(quantity, base)) !== written;
  });
  expect(differing).toEqual([]);
});
