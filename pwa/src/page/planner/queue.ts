/** Asks that wait for the planner: of each topic only the latest, those that somebody waits for first. */

export interface Ask<T> {
  topic: string;
  /** Nobody waits for it with a screen open. */
  lazy: boolean;
  job: T;
  giveWay: () => void;
}

export class Queue<T> {
  #waiting: Ask<T>[] = [];

  add(ask: Ask<T>): void {
    const earlier = this.#waiting.find(({ topic }) => topic === ask.topic);
    this.#waiting = [...this.#waiting.filter((other) => other !== earlier), ask];
    earlier?.giveWay();
  }

  next(): Ask<T> | undefined {
    const next = this.#waiting.find(({ lazy }) => !lazy) ?? this.#waiting[0];
    this.#waiting = this.#waiting.filter((ask) => ask !== next);
    return next;
  }

  /** All that wait, which then wait no more. */
  empty(): Ask<T>[] {
    const all = this.#waiting;
    this.#waiting = [];
    return all;
  }
}
