/** The desk at which the planner works: it is started, asked one thing at a time, and started anew when it falls. */

import type { FromPlanner, PlannerList, ToPlanner } from "../../wire/planning";
import { type Hand, takeOn, type WorkerLike } from "./hand";
import { type Ask, Queue } from "./queue";

export interface DeskState {
  is: "waiting" | "loading" | "ready" | "absent";
  progress: number;
}

export type Job = JobOf<"plan"> | JobOf<"know">;
type JobOf<Kind extends ToPlanner["ask"]> = Omit<Extract<ToPlanner, { ask: Kind }>, "ask" | "id">;
export type Answer = Extract<FromPlanner, { tell: "planned" | "known" | "faulty" }>;

export interface Surroundings {
  make(): WorkerLike;
  /** Null: it is not to be had now. */
  list(): Promise<PlannerList | null>;
  tell(state: DeskState): void;
}

/** What has fallen more often than that within this time will fall again. */
const MOST_FALLS = 3;
const FALLS_COUNT_MS = 10 * 60_000;
/** The largest site takes a slow phone some seconds. Whoever needs this long has stopped. */
const PATIENCE_MS = 120_000;
const LINE_PAUSE_MS = 60_000;

interface Doing {
  id: number;
  done: (answer: Answer) => void;
  failed: (why: Error) => void;
  patience: ReturnType<typeof setTimeout>;
}

interface Waiting extends Pick<Doing, "done" | "failed"> {
  job: Job;
}

export class NoPlanner extends Error {}

export class Desk {
  state: DeskState = { is: "waiting", progress: 0 };
  #hand: Hand | null = null;
  #queue = new Queue<Waiting>();
  #doing: Doing | null = null;
  #falls: number[] = [];
  #ids = 0;
  #again: ReturnType<typeof setTimeout> | undefined;

  constructor(readonly around: Surroundings) {}

  /** Start, unless it was started; where it waits for the line, try the line again. */
  async start(): Promise<void> {
    if (this.state.is !== "waiting") return;
    clearTimeout(this.#again);
    this.#tell({ is: "loading", progress: 0 });
    const list = await this.around.list();
    if (!list) this.#awaitLine();
    else this.#takeOn(list);
  }

  /** This browser cannot run it. */
  giveUp(): void {
    this.#tell({ is: "absent", progress: 0 });
  }

  /** Raises `NoPlanner`, and `AbortError` for an ask that a later one of its topic overtook. */
  ask(topic: string, lazy: boolean, job: Job): Promise<Answer> {
    if (this.state.is !== "ready") return Promise.reject(new NoPlanner(`the planner is ${this.state.is}`));
    return new Promise((done, failed) => {
      const giveWay = () => failed(new DOMException("a later ask came", "AbortError"));
      this.#queue.add({ topic, lazy, giveWay, job: { job, done, failed } });
      this.#goOn();
    });
  }

  #takeOn(list: PlannerList): void {
    const gone = (why: string) => this.#fell(why);
    try {
      this.#hand = takeOn(this.around.make, list, { word: (word) => this.#hear(word), gone });
    } catch (error) {
      this.#fell(String(error));
    }
  }

  #hear(word: FromPlanner): void {
    if (word.tell === "progress") this.#tell({ is: "loading", progress: word.of ? word.done / word.of : 0 });
    else if (word.tell === "ready") this.#begin();
    else if (word.tell !== "failed") this.#answered(word);
    else if (word.line) this.#awaitLine();
    else this.#fell(word.why);
  }

  #begin(): void {
    this.#tell({ is: "ready", progress: 1 });
    this.#goOn();
  }

  #answered(word: Extract<FromPlanner, { id: number }>): void {
    const doing = this.#doing;
    if (doing?.id !== word.id) return;
    clearTimeout(doing.patience);
    this.#doing = null;
    if (word.tell === "lost") doing.failed(new NoPlanner(word.why));
    else doing.done(word);
    this.#goOn();
  }

  #goOn(): void {
    if (this.state.is !== "ready" || this.#doing) return;
    const next = this.#queue.next();
    if (next) this.#do(next);
  }

  #do({ job: { job, done, failed } }: Ask<Waiting>): void {
    this.#ids += 1;
    const patience = setTimeout(() => this.#fell("it took too long"), PATIENCE_MS);
    this.#doing = { id: this.#ids, done, failed, patience };
    this.#hand?.post(asked(job, this.#ids));
  }

  /** Start anew, unless that has been of no use. */
  #fell(why: string): void {
    console.warn(`The planner stopped: ${why}`);
    this.#hand?.end();
    this.#dropAll(why);
    this.#falls = [...this.#falls.filter((at) => at > Date.now() - FALLS_COUNT_MS), Date.now()];
    this.#tell({ is: this.#falls.length > MOST_FALLS ? "absent" : "waiting", progress: 0 });
    void this.start();
  }

  #awaitLine(): void {
    this.#hand?.end();
    this.#tell({ is: "waiting", progress: 0 });
    this.#again = setTimeout(() => void this.start(), LINE_PAUSE_MS);
  }

  #dropAll(why: string): void {
    const doing = this.#doing;
    this.#doing = null;
    clearTimeout(doing?.patience);
    doing?.failed(new NoPlanner(why));
    for (const { job } of this.#queue.empty()) job.failed(new NoPlanner(why));
  }

  #tell(state: DeskState): void {
    this.state = state;
    this.around.tell(state);
  }
}

function asked(job: Job, id: number): ToPlanner {
  return "about" in job ? { ask: "know", id, ...job } : { ask: "plan", id, ...job };
}
