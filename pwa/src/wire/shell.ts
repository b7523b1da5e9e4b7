/** What the page and the service worker say to each other. Types alone: neither room runs the other's code. */

/** How much of one kind of file this phone keeps. `of` is 0 while nobody knows yet how much there is. */
export interface KeptFiles {
  have: number;
  of: number;
}

export type KeptKind = "shell" | "languages" | "planner";

/** What is kept for the time without signal. `ready`: every file is there. */
export interface KeptState {
  version: string;
  kinds: Record<KeptKind, KeptFiles>;
  ready: boolean;
  /** Why the rest is not there yet; null while it is on its way, or there. */
  stopped: "line" | "room" | null;
}

/** The page asks. */
export type ToWorker =
  /** Fetch what is missing: the reader's language first, then the others, then the planner if it can run here. */
  | { ask: "keep"; language: string; planner: boolean }
  /** The waiting version is to take over. */
  | { ask: "take-over" }
  /** Another version is about to take over: let go of what is on its way. */
  | { ask: "let-go" };

/** The worker tells. */
export type FromWorker =
  | { tell: "kept"; state: KeptState }
  /** The server has switched the worker off: it is gone, with what it kept. */
  | { tell: "off" };

/** A file as the build lists it. `revision` is null where its name changes with its content. */
export interface KeptFile {
  url: string;
  revision: string | null;
  integrity: string;
}

/** What the build tells the worker. */
export interface BuiltFiles {
  shell: { version: string; files: KeptFile[] /** What the page cannot open without. */; first: string[] };
  languages: {
    version: string;
    files: (KeptFile & { /** Empty: letters that belong to no one language. */ language: string })[];
  };
}
