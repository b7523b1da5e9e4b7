/** Several tabs of one app: one speaks to the server at a time, and each hears what another has changed. */

import type { Database } from "../store/database";
import type { What } from "../store/store";

/** What one tab tells the others. */
export interface Tiding {
  what: What | "person";
  owner: string;
  site: string;
}

const NAME = "pengan";
const LEASE = "lease";
const LEASE_MS = 45_000;
const LOOK_MS = 1000;

/** Do something while no other tab speaks to the server about the same: `line` is sync. */
export async function aloneAmongTabs(
  database: Database | null,
  self: string,
  work: () => Promise<void>,
  about = "line",
): Promise<void> {
  if (typeof navigator !== "undefined" && navigator.locks) {
    await navigator.locks.request(`${NAME}.${about}`, work);
  } else if (database) {
    await underLease(database, self, work, LOOK_MS, LEASE_MS, about === "line" ? LEASE : `${LEASE}.${about}`);
  } else {
    await work();
  }
}

/** Where the browser has no locks: a lease in the database that runs out by itself, should its tab be gone. */
export async function underLease(
  database: Database,
  self: string,
  work: () => Promise<void>,
  lookMs = LOOK_MS,
  leaseMs = LEASE_MS,
  lease = LEASE,
): Promise<void> {
  while (!(await takeLease(database, self, leaseMs, lease))) await new Promise((later) => setTimeout(later, lookMs));
  const renewing = setInterval(() => void takeLease(database, self, leaseMs, lease), leaseMs / 3);
  try {
    await work();
  } finally {
    clearInterval(renewing);
    await database.write(["about"], false, async (tx) => {
      const held = (await tx.objectStore("about").get(lease)) as Lease | undefined;
      if (held?.by === self) await tx.objectStore("about").delete(lease);
    });
  }
}

interface Lease {
  by: string;
  until: number;
}

async function takeLease(database: Database, self: string, leaseMs: number, name: string): Promise<boolean> {
  return await database.write(["about"], false, async (tx) => {
    const lease = (await tx.objectStore("about").get(name)) as Lease | undefined;
    const now = Date.now();
    // A lease from the future is of a clock that was set back since: it holds nobody up.
    if (lease && lease.by !== self && lease.until > now && lease.until <= now + leaseMs) return false;
    await tx.objectStore("about").put({ by: self, until: now + leaseMs } satisfies Lease, name);
    return true;
  });
}

/** The way to the other tabs. */
export class Tabs {
  private readonly channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(NAME);

  tell(tiding: Tiding): void {
    this.channel?.postMessage(tiding);
  }

  listen(ear: (tiding: Tiding) => void): void {
    this.channel?.addEventListener("message", (event: MessageEvent<Tiding>) => ear(event.data));
  }

  close(): void {
    this.channel?.close();
  }
}
