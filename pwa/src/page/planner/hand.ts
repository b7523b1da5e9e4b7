/** One worker from its start to its end, whatever ends it. */

import type { FromPlanner, PlannerList, ToPlanner } from "../../wire/planning";

/** What a browser's `Worker` has that is used here. */
export interface WorkerLike {
  postMessage(word: ToPlanner): void;
  terminate(): void;
  addEventListener(kind: "message", listener: (event: { data: FromPlanner }) => void): void;
  addEventListener(kind: "error" | "messageerror", listener: (event: { message?: string }) => void): void;
}

export interface Hand {
  post(word: ToPlanner): void;
  /** End it. Nothing more is heard of it. */
  end(): void;
}

export interface Heard {
  word(word: FromPlanner): void;
  /** It is gone. Said once at most. */
  gone(why: string): void;
}

let lives = 0;

export function takeOn(make: () => WorkerLike, list: PlannerList, heard: Heard): Hand {
  const worker = make();
  lives += 1;
  const life = `pengan.planner.${Date.now()}.${lives}`;
  let over = false;
  const end = () => {
    over = true;
    worker.terminate();
  };
  const gone = (why: string) => {
    if (over) return;
    end();
    heard.gone(why);
  };
  worker.addEventListener("message", ({ data }) => {
    if (over) return;
    if (data.tell === "ready") watchLife(life, () => gone("it ended without a word"));
    heard.word(data);
  });
  worker.addEventListener("error", ({ message }) => gone(message ?? "an error without words"));
  worker.addEventListener("messageerror", () => gone("a message that cannot be read"));
  worker.postMessage({ ask: "start", list, life });
  return { post: (word) => worker.postMessage(word), end };
}

/** The worker holds this lock for as long as it lives. Pages that came without TLS have no locks: patience has to do. */
function watchLife(life: string, over: () => void): void {
  void navigator.locks?.request(life, over);
}
