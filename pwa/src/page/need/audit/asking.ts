/** What the engine makes of an audit, as somebody reads its cans: asked anew with each reading, never waited for. */

import { useEffect, useState } from "preact/hooks";
import { askEngine, NoPlanner, planner, Unsound } from "../../planner/planner";
import type { Form } from "../../records/form";
import { type Records, textOf } from "../../records/records";
import { todayHere } from "../../records/today";
import type { DocumentData, SiteRecord } from "../../site/document";
import { copy } from "../../store/queries";
import type { Message } from "../../words/say";

/** As `pengan/engine/phone/wetting.py` tells it. */
export interface Wetting {
  mean_mm: number;
  rate_mm_h: number;
  /** A share, as `christiansen` is. */
  uniformity_lq: number;
  christiansen: number;
  multiplier: number;
  lowest: { column: number; row: number }[];
}

export interface Cost {
  aim_lq: number;
  share: number;
  runs: { turn: string; run_l: number; extra_l: number }[];
  season: { net_mm: number; area_m2: number; season_l: number; extra_l: number } | null;
}

export interface Told {
  wetting: Wetting | null;
  cost: Cost | null;
  messages: Message[];
}

export type WettingState =
  /** Something about the audit itself is missing or wrong: its form says what. */
  | { is: "faulty" }
  | { is: "loading"; progress: number }
  /** This browser has no planner. */
  | { is: "absent" }
  | { is: "working" }
  | { is: "known"; told: Told };

const PAUSE_MS = 150;

export function useWetting(form: Form): WettingState {
  const [found, setFound] = useState<{ asked: string; told: Told | null } | null>(null);
  const { is, progress } = planner.value;
  const id = form.record?.id ?? "";
  const sound = form.record !== undefined && form.faults.length === 0;
  const asked = sound ? JSON.stringify(aroundAudit(form.records, form.record as SiteRecord)) : "";
  useEffect(() => {
    if (is !== "ready" || !asked) return;
    let wanted = true;
    const pause = setTimeout(() => {
      void tellOf(id, asked).then((told) => {
        if (wanted && told !== undefined) setFound({ asked, told });
      });
    }, PAUSE_MS);
    return () => {
      wanted = false;
      clearTimeout(pause);
    };
  }, [id, asked, is]);
  if (!asked || found?.told === null) return { is: "faulty" };
  if (found?.told) return { is: "known", told: found.told };
  if (is === "absent") return { is: "absent" };
  return is === "ready" ? { is: "working" } : { is: "loading", progress };
}

/** Null where the engine finds faults; undefined where a later ask has overtaken this one, or the planner has stopped. */
async function tellOf(audit: string, records: string): Promise<Told | null | undefined> {
  const document: DocumentData = { format: copy.peek()?.format ?? 1, records: JSON.parse(records) as SiteRecord[] };
  try {
    return await askEngine<Told>("wetting", "wetting", document, { audit, today: todayHere.peek() });
  } catch (error) {
    if (error instanceof Unsound) return null;
    if (error instanceof NoPlanner || (error instanceof DOMException && error.name === "AbortError")) return undefined;
    throw error;
  }
}

const WHOLE: readonly string[] = ["site", "supplies", "controllers", "hydrozones", "programs", "normals"];

/** The part of the document that an audit's figures come from: it is asked for with every reading, and has to be small. */
export function aroundAudit(records: Records, audit: SiteRecord): SiteRecord[] {
  const station = records.get("stations", textOf(audit, "station"));
  return [
    ...WHOLE.flatMap((table) => records.of(table)),
    ...(station ? [station] : []),
    ...records.of("turns").filter((turn) => turn.station === audit.station),
    audit,
    ...records.of("cans").filter((can) => can.audit === audit.id),
  ];
}
