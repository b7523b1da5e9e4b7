/** A drought as the document has it: how much of its need each priority gets from one night to another. */

import type { SiteDocument, SiteRecord } from "../../site/document";
import type { Change } from "../../store/shapes";

/** Everything: a priority without a rule. */
export const WHOLE_PCT = 100;
/** As the document has it for hydrozones that state none. */
const USUAL_PRIORITY = 5;

/** Rules of one span are one drought. */
export interface Drought {
  starts: string;
  /** Empty: until further notice. */
  ends: string;
  /** By priority. */
  rules: Map<number, SiteRecord>;
}

/** A drought as somebody sets it. `shares` are in percent, by priority. */
export interface Setting {
  starts: string;
  ends: string;
  shares: Record<string, number>;
}

/** The priorities of the site's plantings, the best served first, each with its hydrozones. */
export function prioritiesOf(document: SiteDocument): Map<number, string[]> {
  const found = new Map<number, string[]>();
  for (const zone of document.all("hydrozones")) {
    const priority = typeof zone.priority === "number" ? zone.priority : USUAL_PRIORITY;
    found.set(priority, [...(found.get(priority) ?? []), zone.id]);
  }
  return new Map([...found].sort(([one], [other]) => one - other));
}

/** All droughts, the earliest first. Of two rules for one priority the engine follows the later id. */
export function droughtsOf(document: SiteDocument): Drought[] {
  const found = new Map<string, Drought>();
  for (const rule of [...document.all("droughts")].sort((one, other) => (one.id < other.id ? -1 : 1))) {
    const [starts, ends] = [String(rule.starts), typeof rule.ends === "string" ? rule.ends : ""];
    const known = found.get(`${starts} ${ends}`) ?? { starts, ends, rules: new Map() };
    known.rules.set(Number(rule.priority), rule);
    found.set(`${starts} ${ends}`, known);
  }
  return [...found.values()].sort((one, other) => (one.starts < other.starts ? -1 : 1));
}

/** The drought of a night, else the next one to come. */
export function droughtOn(document: SiteDocument, night: string): Drought | null {
  return droughtsOf(document).find(({ ends }) => !ends || ends >= night) ?? null;
}

export const holdsOn = ({ starts, ends }: { starts: string; ends: string }, night: string): boolean =>
  starts <= night && (!ends || night <= ends);

export function settingOf(drought: Drought | null, night: string): Setting {
  const rules = [...(drought?.rules ?? [])];
  return {
    starts: drought?.starts ?? night,
    ends: drought?.ends ?? "",
    shares: Object.fromEntries(rules.map(([priority, rule]) => [priority, Number(rule.share_pct)])),
  };
}

/** The edits from a drought to what somebody set. A priority that gets everything needs no rule. `idOf` names new ones. */
export function changesTo(drought: Drought | null, set: Setting, idOf: (priority: number) => string): Change[] {
  const priorities = new Set([...(drought?.rules.keys() ?? []), ...Object.keys(set.shares).map(Number)]);
  return [...priorities].flatMap((priority) => {
    const share = set.shares[priority] ?? WHOLE_PCT;
    const rule = drought?.rules.get(priority);
    if (!rule) return share === WHOLE_PCT ? [] : [added(idOf(priority), priority, share, set)];
    if (share === WHOLE_PCT) return [{ kind: "remove", table: "droughts", record: rule.id }];
    return changed(rule, { starts: set.starts, ends: set.ends || null, share_pct: share });
  });
}

function added(record: string, priority: number, share_pct: number, { starts, ends }: Setting): Change {
  const now = { starts, ...(ends ? { ends } : {}), priority, share_pct };
  return { kind: "add", table: "droughts", record, now };
}

function changed(rule: SiteRecord, wanted: Record<string, unknown>): Change[] {
  return Object.entries(wanted)
    .filter(([field, now]) => (rule[field] ?? null) !== now)
    .map(([field, now]) => ({ kind: "set", table: "droughts", record: rule.id, field, now }));
}

/** What the engine says of one hydrozone's night. */
export interface ZoneNight {
  hydrozone: string;
  tonight_mm: number | null;
  share_pct: number | null;
}

export interface Needed {
  night: string;
  hydrozones: ZoneNight[];
}

export interface Compared {
  hydrozone: string;
  before: number;
  after: number;
}

/** Depths at the roots before and after, where both are known. */
export function compared(before: Needed, after: Needed): Compared[] {
  const later = new Map(after.hydrozones.map((zone) => [zone.hydrozone, zone.tonight_mm]));
  return before.hydrozones.flatMap(({ hydrozone, tonight_mm }) => {
    const then = later.get(hydrozone);
    return tonight_mm === null || then === null || then === undefined
      ? []
      : [{ hydrozone, before: tonight_mm, after: then }];
  });
}
