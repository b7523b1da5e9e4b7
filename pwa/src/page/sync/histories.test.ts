/** Histories made up by chance: whatever happens to phones, tabs and line, no edit is lost, doubled or sent as another's. */

import "fake-indexeddb/auto";
import * as fc from "fast-check";
import { it } from "vitest";
import type { Change } from "../store/shapes";
import { DELIVERIES, type Delivery, History } from "./histories";
import { ModelServer } from "./model-server";

/** The same histories on every machine; another number goes looking for new ones. */
fc.configureGlobal({ seed: 20_261_124 });

const STATIONS = ["s1", "s2", "s3"];

type Step = (history: History) => Promise<void>;

const number = fc.nat(6);
const deliveries = fc.array(fc.constantFrom<Delivery[]>("sound", ...DELIVERIES), { maxLength: 4 });

const step = <Args extends unknown[]>(
  args: { [Key in keyof Args]: fc.Arbitrary<Args[Key]> },
  does: (history: History, ...args: Args) => Promise<unknown>,
): fc.Arbitrary<Step> =>
  fc.tuple(...args).map((given) => {
    const one: Step = async (history) => {
      await does(history, ...(given as unknown as Args));
    };
    return Object.assign(one, { [fc.toStringMethod]: () => `${does} ${JSON.stringify(given)}` });
  });

const stationOf = (choice: number) => STATIONS[choice % STATIONS.length] ?? "s1";
const setOf = (field: number, record: number, value: number): Change => ({
  kind: "set",
  table: "stations",
  record: stationOf(record),
  field: ["name", "flow_lpm", "notes"][field % 3] ?? "name",
  now: [1, 2, 3, null, -1, "unreadable"][value % 6],
});

const keeping = step([number, number, number, number, number], (history, phone, tab, ...change) =>
  history.keep(phone, tab, [setOf(...change)]),
);
const keepingWell = step([number, number, number, number, fc.nat(3)], (history, phone, tab, ...change) =>
  history.keep(phone, tab, [setOf(...change)]),
);
const keepingSeveral = step([number, number, number, number], (history, phone, tab, one, other) =>
  history.keep(phone, tab, [setOf(one, one, other), setOf(other, one, one), setOf(one, other, other)]),
);
const removing = step([number, number], (history, phone, which) =>
  history.keep(phone, 0, [{ kind: "remove", table: "stations", record: stationOf(which) }]),
);
const restoring = step([number], restoreOne);
const adding = step([number, number, fc.boolean()], addOne);
const settling = step([number, number], settleOne);
const takingBack = step([number, number], (history, phone, tab) => history.takeBack(phone, tab));
const syncing = step([number, number, deliveries, fc.boolean()], (history, phone, tab, line, greet) =>
  history.sync(phone, tab, line, greet),
);
const syncingBoth = step([number, deliveries], (history, phone, line) => history.syncBoth(phone, line));
const lettingThrough = step([], async (history) => history.letThrough());
const opening = step([number], (history, phone) => history.openTab(phone));
const hearing = step([number], (history, phone) => history.hear(phone));
const reloading = step([number, number], (history, phone, tab) => history.reload(phone, tab));
const cloning = step([number], (history, phone) => history.clone(phone));
const tidying = step([number], (history, phone) => history.tidy(phone));
const signingIn = step([number, fc.constantFrom("ana", "ben", "")], (history, phone, who) =>
  history.signIn(phone, who),
);
const changingRole = step([fc.constantFrom("manager" as const, "crew" as const, null)], async (history, role) =>
  history.server.setRole("ben", role),
);

/** Tabs hear at once of what another has made, but not always of what became of it. */
const heard = (arbitrary: fc.Arbitrary<Step>) =>
  arbitrary.map(
    (does): Step =>
      async (history) => {
        await does(history);
        await history.hear(0);
      },
  );
const alone = [
  syncing,
  syncingBoth,
  ...[keepingWell, removing, restoring, adding, takingBack, opening, reloading].map(heard),
];
const steps = fc.oneof(
  { weight: 4, arbitrary: keeping },
  { weight: 5, arbitrary: syncing },
  { weight: 2, arbitrary: reloading },
  ...[keepingSeveral, removing, restoring, adding, settling, takingBack, syncingBoth, lettingThrough].map(once),
  ...[opening, hearing, cloning, tidying, signingIn, signingIn, changingRole].map(once),
);

function once(arbitrary: fc.Arbitrary<Step>) {
  return { weight: 1, arbitrary };
}

async function restoreOne(history: History, phone: number): Promise<void> {
  const [removed] = history.tab(phone, 0).kept.removed.values();
  if (removed) await history.keep(phone, 0, [{ kind: "restore", table: removed.table, record: removed.id }]);
}

let added = 0;

async function addOne(history: History, phone: number, tab: number, andEdit: boolean): Promise<void> {
  const at = { table: "stations", record: `new${added++}` };
  const changes: Change[] = [{ kind: "add", ...at, now: { name: 1 } }];
  if (andEdit) changes.push({ kind: "set", ...at, field: "name", now: 2 });
  await history.keep(phone, tab, changes);
}

async function settleOne(history: History, phone: number, mine: number): Promise<void> {
  const waits = [...history.tab(phone, 0).kept.waiting.values()].find((one) => one.open && one.tray === "disputed");
  const field = waits?.edit.field;
  if (!waits || !field) return;
  const now = mine % 2 ? waits.edit.now : waits.answer.theirs;
  const at = { table: waits.edit.table, record: waits.edit.record };
  await history.keep(phone, 0, [{ kind: "settle", ...at, field, now: now ?? null, settles: waits.edit.id }]);
}

function aServer(): ModelServer {
  const records = STATIONS.map((id) => ({ table: "stations", id, name: 1, flow_lpm: 1 }));
  return new ModelServer("site", records, [
    ["ana", "manager"],
    ["ben", "lead"],
  ]);
}

it("no edit is lost, doubled, or sent as somebody else's, and all copies come to be the server's", {
  timeout: 60_000,
}, async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(steps, { maxLength: 40, size: "max" }), async (doings) => {
      const history = new History(aServer());
      await history.addPhone("ana");
      await history.addPhone("ben");
      try {
        for (const does of doings) {
          await does(history);
          await history.checkPlaces();
        }
        await history.comeToRest();
        await history.checkAtRest();
      } finally {
        await history.close();
      }
    }),
    { numRuns: 60, includeErrorInReport: true, interruptAfterTimeLimit: 50_000 },
  );
});

it("nobody is ever in dispute with themselves, in however many tabs and with whatever became of an answer", {
  timeout: 60_000,
}, async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.oneof(syncing, heard(keepingWell), ...alone), { maxLength: 40, size: "max" }),
      async (doings) => {
        const history = new History(aServer());
        await history.addPhone("ana");
        try {
          for (const does of doings) await does(history);
          await history.comeToRest();
          await history.checkAtRest();
          const outcomes = [...history.server.receipts.values()].map(({ answer }) => answer.outcome);
          if (outcomes.includes("disputed")) throw new Error("a person disputes with themselves");
        } finally {
          await history.close();
        }
      },
    ),
    { numRuns: 60, includeErrorInReport: true, interruptAfterTimeLimit: 50_000 },
  );
});
