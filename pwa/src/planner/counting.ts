/** Watches the planner's files as they come, whoever fetches them: counts their bytes, and notices a broken line. */

import type { PlannerList } from "../wire/planning";

export type Told = (done: number, of: number) => void;

/** A file did not come. It may come another time. */
export class LineBroke extends Error {}

export interface Counting {
  /** Rejects with `LineBroke`. Pyodide itself would wait for ever for a file that does not come. */
  broken: Promise<never>;
  end(): void;
}

/** The share of the whole from which on a step is told. */
const LEAST_STEP = 0.01;

/** Pyodide fetches its files through the worker's `fetch`. Scripts are imported, and cannot be counted. */
export function countFetches(files: PlannerList["files"], told: Told): Counting {
  const plain = self.fetch;
  const counted = new Map(files.filter(({ url }) => !url.endsWith(".mjs")).map(({ url, bytes }) => [url, bytes]));
  const step = stepsOf(
    [...counted.values()].reduce((sum, bytes) => sum + bytes, 0),
    told,
  );
  let refuse: (why: LineBroke) => void = () => {};
  const broken = new Promise<never>((_, reject) => {
    refuse = reject;
  });
  self.fetch = async (asked, options) => {
    const path = pathOf(asked);
    const breakOff = (error: unknown) => refuse(new LineBroke(`${path}: ${error}`));
    try {
      const answer = await plain(asked, options);
      if (!answer.ok) throw new Error(String(answer.status));
      if (counted.has(path)) count(answer.clone(), step).catch(breakOff);
      return answer;
    } catch (error) {
      breakOff(error);
      throw error;
    }
  };
  return { broken, end: () => Object.assign(self, { fetch: plain }) };
}

function stepsOf(of: number, told: Told): (bytes: number) => void {
  let [done, said] = [0, 0];
  told(0, of);
  return (bytes) => {
    done += bytes;
    if (done < of && done - said < of * LEAST_STEP) return;
    said = done;
    told(done, of);
  };
}

function pathOf(asked: RequestInfo | URL): string {
  return new URL(asked instanceof Request ? asked.url : asked, location.href).pathname;
}

async function count(answer: Response, step: (bytes: number) => void): Promise<void> {
  const reader = answer.body?.getReader();
  for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) step(part.value.length);
}
