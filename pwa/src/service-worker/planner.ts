/** The planner's files: they come after everything else, and are replaced as a whole, only where their version changes. */

import type { PlannerList } from "../wire/planning";
import type { KeptFiles } from "../wire/shell";
import { cacheName, findKept, readLedger, useVersion } from "./caches";
import { patient } from "./fetching";
import { countFiles, keepFiles } from "./keeping";

const LIST = "/planner/planner.json";
const FOLDER = "/planner/";
const LIST_PATIENCE_MS = 10_000;

/** What was last seen of the server's list; null until it was asked. */
let listed: PlannerList | null = null;

export function isPlanners(path: string): boolean {
  return path.startsWith(FOLDER);
}

/** Raises where the line breaks or something else than our server answers. */
export async function keepPlanner(signal: AbortSignal, step: () => void): Promise<void> {
  const list = await askForList(signal);
  listed = list;
  const name = cacheName("planner", list.version);
  step();
  await keepFiles(name, list.files, signal, step);
  await (await caches.open(name)).put(LIST, Response.json(list));
  await useVersion("planner", list.version, 0);
}

async function askForList(signal: AbortSignal): Promise<PlannerList> {
  const answer = await patient(LIST, LIST_PATIENCE_MS, { signal, cache: "no-cache" });
  const kind = answer.headers.get("Content-Type") ?? "";
  if (!answer.ok || !kind.includes("json")) throw new TypeError(`${LIST}: ${answer.status} ${kind}`);
  return (await answer.json()) as PlannerList;
}

/** The list is the one whose files are all here; the files have names that change with their content. */
export async function plannersFile(request: Request): Promise<Response> {
  const path = new URL(request.url).pathname;
  const kept = path === LIST ? await listKept() : await findKept(request.url);
  return kept ?? fetch(request);
}

async function listKept(): Promise<Response | undefined> {
  const [version] = (await readLedger()).versions.planner;
  return version ? (await caches.open(cacheName("planner", version))).match(LIST) : undefined;
}

/** Of the list that is on its way; else of the one that is kept. */
export async function countPlanner(): Promise<KeptFiles> {
  const list = listed ?? (await keptList());
  return list ? countFiles(cacheName("planner", list.version), list.files) : { have: 0, of: 0 };
}

async function keptList(): Promise<PlannerList | null> {
  const kept = await listKept();
  return kept ? ((await kept.json()) as PlannerList) : null;
}
