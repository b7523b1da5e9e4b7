/** From an empty site to the first night: what has to be there, in which order, and what is there already. */

import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";

export type StepTable = "supplies" | "controllers" | "hydrozones" | "stations" | "programs" | "turns" | "windows";

export interface Step {
  table: StepTable;
  title: string;
  about: string;
  /** Where in the site's records it is done. */
  way: string[];
  count: number;
  done: boolean;
}

/** Turns are made inside their program's page. */
const MADE_IN: Partial<Record<StepTable, string[]>> = { turns: ["programs"] };

export function stepsOf(site: SiteDocument | null): Step[] {
  const step = (table: StepTable, title: string, about: string): Step => {
    const count = site?.all(table).length ?? 0;
    return { table, title, about, way: MADE_IN[table] ?? [table, "new"], count, done: count > 0 };
  };
  return [
    step(
      "supplies",
      t("Supplies"),
      t("Where water comes from and the mains it runs through, each with its limit of flow."),
    ),
    step(
      "controllers",
      t("Controllers"),
      t("The cabinets the stations hang on, and how many valves each may open at once."),
    ),
    step("hydrozones", t("Hydrozones"), t("Plantings that drink alike: what grows there, on which soil.")),
    step("stations", t("Stations"), t("Each valve, with its flow, its supply, its controller and its hydrozone.")),
    step("programs", t("Programs"), t("Which days water comes, and from what time on.")),
    step("turns", t("Turns"), t("Which stations a program waters, in which order and for how long.")),
    step("windows", t("Water windows"), t("The hours in which watering is allowed. Without one, the whole night is.")),
  ];
}

/** The first step that is still to do; null: the site is ready for its first night. */
export function nextStep(steps: readonly Step[]): StepTable | null {
  return steps.find((step) => !step.done)?.table ?? null;
}
