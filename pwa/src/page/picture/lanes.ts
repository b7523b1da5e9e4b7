/**
 * Which supplies the night is drawn in. Every run stands in exactly one lane, the lanes in document order.
 *
 * We start at each source and walk down while all its water goes through one main with a limit of its own: that
 * main is what decides. Where the water parts, each branch is a lane if together they cannot ask for more than the
 * supply above them gives. If they can, its limit is what they share and wait for, so it stays one lane: drawn
 * apart, no lane would ever look full.
 */

import type { NightSheet } from "../night/sheet";
import type { SiteDocument } from "../site/document";

export interface Lane {
  supply: string;
  name: string;
  /** The tightest limit on the way to the source; null where nothing limits it. */
  limitLpm: number | null;
  /** The supplies whose runs stand in this lane. */
  supplies: ReadonlySet<string>;
}

/** More lanes than this fit no phone: then each source is one. */
const MOST_LANES = 6;

export function lanesOf(document: SiteDocument, sheet: NightSheet): Lane[] {
  const used = new Set([...sheet.runs, ...sheet.shortfalls].map((item) => item.supply));
  const sources = [...document.supplies.values()].filter((supply) => !supply.fedBy).map((supply) => supply.id);
  const carrying = sources.filter((source) => carries(document, source, used));
  const lanes = carrying.flatMap((source) => split(document, source, used));
  return lanes.length <= MOST_LANES ? lanes : carrying.map((source) => whole(document, source));
}

function split(document: SiteDocument, node: string, used: ReadonlySet<string>): Lane[] {
  const branches = children(document, node).filter((child) => carries(document, child, used));
  const only = branches[0];
  if (only === undefined) return [whole(document, node)];
  if (!used.has(node) && branches.length === 1) {
    return document.supplies.get(only)?.limitLpm ? split(document, only, used) : [whole(document, node)];
  }
  if (shares(document, node, used.has(node), branches)) return [whole(document, node)];
  const own = used.has(node) ? [lane(document, node, [node])] : [];
  return [...own, ...branches.map((branch) => whole(document, branch))];
}

/** Whether the branches, with what hangs on the supply itself, can ask for more than it gives. */
function shares(document: SiteDocument, node: string, direct: boolean, branches: readonly string[]): boolean {
  const limit = document.supplies.get(node)?.limitLpm ?? Number.POSITIVE_INFINITY;
  const wanted = branches.map((branch) => document.supplies.get(branch)?.limitLpm ?? Number.POSITIVE_INFINITY);
  const together = wanted.reduce((sum, each) => sum + each, 0);
  return direct ? Number.isFinite(limit) : together > limit;
}

function whole(document: SiteDocument, node: string): Lane {
  return lane(document, node, below(document, node));
}

function lane(document: SiteDocument, node: string, supplies: readonly string[]): Lane {
  const limits = above(document, node)
    .map((id) => document.supplies.get(id)?.limitLpm)
    .filter((limit): limit is number => typeof limit === "number");
  const name = document.supplies.get(node)?.name ?? node;
  return { supply: node, name, limitLpm: limits.length ? Math.min(...limits) : null, supplies: new Set(supplies) };
}

function children(document: SiteDocument, node: string): string[] {
  return [...document.supplies.values()].filter((supply) => supply.fedBy === node).map((supply) => supply.id);
}

function carries(document: SiteDocument, node: string, used: ReadonlySet<string>): boolean {
  return below(document, node).some((id) => used.has(id));
}

function below(document: SiteDocument, node: string): string[] {
  return [node, ...children(document, node).flatMap((child) => below(document, child))];
}

/** The supply and all that feed it, the source last. */
export function above(document: SiteDocument, node: string): string[] {
  const feeder = document.supplies.get(node)?.fedBy;
  return feeder ? [node, ...above(document, feeder)] : [node];
}
