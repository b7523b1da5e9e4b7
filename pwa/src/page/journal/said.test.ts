import { beforeEach, expect, it } from "vitest";
import english from "../../../generated/catalogues/en.json";
import spanish from "../../../generated/catalogues/es.json";
import type { Alarm } from "../alarms/shapes";
import { SiteDocument } from "../site/document";
import { type Catalogue, catalogue } from "../words/catalogue";
import { units } from "../words/reader";
import type { Happened } from "./queries";
import { saidLines } from "./said";

const SITE = new SiteDocument({
  format: 1,
  records: [
    { table: "site", id: "park", name: "Park" },
    { table: "supplies", id: "north", name: "North main" },
  ],
});
const AT = 1_790_000_000;
const SAID = {
  code: "shutting.by_site",
  params: { supply: "north", flow_lpm: 90.5, limit_lpm: 85 },
  detail: "In some other version's words.",
};
const TEXT = "In the server's own language.";
const ALARM = {
  id: "alarm-0001",
  said: { ...SAID, code: "no.such_code", detail: "Too much at North main." },
} as unknown as Alarm;

const entry = (more: Partial<Happened>): Happened => ({
  id: "entry-0001",
  at: AT,
  kind: "shut",
  by: "server",
  text: TEXT,
  row: null,
  ...more,
});

beforeEach(() => {
  catalogue.value = english as unknown as Catalogue;
  units.value = "metric";
});

it("says the server's words in the reader's language and units, with the site's names", () => {
  const [inEnglish] = saidLines(entry({ said: SAID }), SITE, []);
  expect(inEnglish).toContain("North main");
  expect(inEnglish).toContain("90.5");
  catalogue.value = spanish as unknown as Catalogue;
  units.value = "us";
  const [inSpanish] = saidLines(entry({ said: SAID }), SITE, []);
  expect(inSpanish).toContain("North main");
  expect(inSpanish).not.toContain("90.5");
  expect(inSpanish).not.toContain(TEXT);
});

it("takes the server's sentence for a code it does not know", () => {
  expect(saidLines(entry({ said: { ...SAID, code: "no.such_code" } }), SITE, [])).toEqual([SAID.detail]);
});

it("leaves what people wrote as they wrote it, and says which alarm it is about", () => {
  const told = entry({ kind: "alarm_explained", by: "person:ana", text: "A hose", alarm: ALARM.id });
  expect(saidLines(told, SITE, [ALARM])).toEqual(["A hose", "Too much at North main."]);
  expect(saidLines({ ...told, text: "" }, SITE, [ALARM])).toEqual(["Too much at North main."]);
  expect(saidLines(told, SITE, [])).toEqual(["A hose"]);
});

it("lets the alarm speak for entries of before messages were kept, and the text where it is gone", () => {
  const opened = entry({ kind: "alarm_opened", alarm: ALARM.id });
  expect(saidLines(opened, SITE, [ALARM])).toEqual(["Too much at North main."]);
  expect(saidLines(opened, SITE, [])).toEqual([TEXT]);
});
