/** The site's clock over one night. The page never asks the browser what zone it is in. */

export interface ClockChange {
  at: number;
  before_s: number;
  after_s: number;
}

/** What the server says of a night's clock and light. Instants are whole seconds since 1970. */
export interface ClockData {
  night: string;
  starts: number;
  ends: number;
  offset_s: number;
  changes: ClockChange[];
  sunset: number | null;
  sunrise: number | null;
}

/** Which of two passings of one wall time is meant: none, the first or the second. */
export type Mark = "" | "¹" | "²";

export class SiteClock {
  constructor(private readonly data: ClockData) {}

  get changes(): readonly ClockChange[] {
    return this.data.changes;
  }

  /** Seconds east of UTC in force at an instant. */
  offset(instant: number): number {
    const last = this.data.changes.findLast((change) => change.at <= instant);
    return last ? last.after_s : this.data.offset_s;
  }

  /** The site's wall, as a `Date` whose UTC fields are what the wall reads. */
  wall(instant: number): Date {
    return new Date((instant + this.offset(instant)) * 1000);
  }

  /** Where the clock goes back, the wall reads an hour twice: which of the two is it? */
  mark(instant: number): Mark {
    for (const { at, before_s, after_s } of this.data.changes) {
      const twice = before_s - after_s;
      if (twice > 0 && instant >= at - twice && instant < at) return "¹";
      if (twice > 0 && instant >= at && instant < at + twice) return "²";
    }
    return "";
  }
}
