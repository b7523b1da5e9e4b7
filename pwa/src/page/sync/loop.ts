/** When sync speaks: at once when something happens, again after a silence, and from time to time. One tab at a time. */

import { pauseAfter } from "../line/line";
import type { LineState } from "../store/shapes";
import type { Ending } from "./round";

/** What the loop is given, so that tests can hold its clock and its line. */
export interface LoopParts {
  /** One round, greeting first or not. */
  round: (greet: boolean) => Promise<Ending>;
  /** Hold the line, so that no other tab speaks meanwhile. */
  alone: (work: () => Promise<void>) => Promise<void>;
  ended: (ending: Ending) => Promise<void>;
  /** How the line is, for the screens. */
  show: (now: LineState["now"]) => void;
  /** The next round is due sooner: something is still to come (a night that is being planned). */
  expecting: () => boolean;
  /** Edits wait to be sent. */
  unsent: () => boolean;
  now: () => number;
  chance: () => number;
}

const REGULARLY_MS = 5 * 60_000;
const SIGNED_OUT_MS = 60_000;
const SOON_MS = 300;
const EXPECTING_MS = 3000;
const LONGEST_EXPECTING_MS = 60_000;

export class Loop {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> | null = null;
  private wanted = false;
  private failures = 0;
  private expected = 0;
  private greetAt = 0;
  private stopped = false;

  constructor(private readonly parts: LoopParts) {}

  /** Speak now, or once more after the round that is under way. */
  wake(greet = false): void {
    if (this.stopped) return;
    if (greet) this.greetAt = 0;
    this.wanted = true;
    this.running ??= this.run();
  }

  stop(): void {
    this.stopped = true;
    clearTimeout(this.timer);
  }

  /** Once no round is under way: for tests, and before the page is left. */
  async rest(): Promise<void> {
    await this.running;
  }

  private async run(): Promise<void> {
    clearTimeout(this.timer);
    try {
      while (this.wanted && !this.stopped) {
        this.wanted = false;
        await this.parts.alone(() => this.once());
      }
    } finally {
      this.running = null;
    }
  }

  private async once(): Promise<void> {
    const { parts } = this;
    if (parts.unsent()) parts.show("sending");
    const greet = parts.now() >= this.greetAt;
    const ending = await parts.round(greet);
    if (greet) this.greetAt = parts.now() + REGULARLY_MS;
    if (!["in_step", "later", "found"].includes(ending.how)) this.greetAt = 0;
    await parts.ended(ending);
    const shown = stateAfter(ending, parts.unsent());
    if (shown) parts.show(shown);
    this.again(this.pause(ending));
  }

  private again(pause_ms: number): void {
    clearTimeout(this.timer);
    if (!this.stopped) this.timer = setTimeout(() => this.wake(), pause_ms);
  }

  private pause(ending: Ending): number {
    const failed = ending.how === "silent" || ending.how === "later";
    this.failures = failed ? this.failures + 1 : 0;
    this.expected = ending.how === "in_step" && this.parts.expecting() ? this.expected + 1 : 0;
    if (ending.how === "silent") return pauseAfter(this.failures, this.parts.chance(), ending.wait_ms);
    if (ending.how === "later") return this.failures > 2 ? pauseAfter(this.failures, this.parts.chance()) : SOON_MS;
    if (ending.how === "other" || ending.how === "found") return SOON_MS;
    if (ending.how === "signed_out") return SIGNED_OUT_MS;
    return this.expected ? Math.min(EXPECTING_MS * 2 ** (this.expected - 1), LONGEST_EXPECTING_MS) : REGULARLY_MS;
  }
}

/** What the screens are told; null: it stays as it is. */
export function stateAfter(ending: Ending, unsent: boolean): LineState["now"] | null {
  if (ending.how === "silent") return "no_signal";
  if (ending.how === "signed_out" || ending.how === "update_needed") return ending.how;
  if (ending.how === "other" || ending.how === "found") return null;
  return unsent ? "sending" : "in_step";
}
