// What ECMAScript Temporal makes of every zone, as JSON on standard output, for test_temporal.py to compare with.
// Usage: node temporal_zones.mjs PACKAGE_JSON < names.json
// Source: the TC39 Temporal proposal, as the npm package temporal-polyfill implements it on this Node's own zone data.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const { Temporal } = createRequire(process.argv[2])("temporal-polyfill");

const FIRST = Temporal.Instant.from("2024-01-01T00:00Z");
const LAST = Temporal.Instant.from("2038-01-01T00:00Z");
const POLICIES = ["compatible", "earlier", "later"];

const seconds = (zoned) => zoned.epochMilliseconds / 1000;
const offset = (zoned) => zoned.offsetNanoseconds / 1e9;

function changesOf(zone) {
  const found = [];
  let at = FIRST.toZonedDateTimeISO(zone);
  for (at = at.getTimeZoneTransition("next"); at && seconds(at) < LAST.epochMilliseconds / 1000; ) {
    const before = at.subtract({ seconds: 1 });
    if (offset(before) !== offset(at)) found.push([at, offset(before), offset(at)]);
    at = at.getTimeZoneTransition("next");
  }
  return found;
}

// Wall times around a change: just before, at its first and last missing or doubled second, in the midst, just after.
function wallsAround(at, before, after) {
  const wallBefore = at.toInstant().toZonedDateTimeISO("UTC").toPlainDateTime().add({ seconds: before });
  const step = Math.abs(after - before);
  const first = after > before ? wallBefore : wallBefore.subtract({ seconds: step });
  return [-1, 0, step / 2, step - 1, step].map((after) => first.add({ seconds: after }));
}

const meant = (wall, zone) =>
  POLICIES.map((disambiguation) => seconds(wall.toZonedDateTime(zone, { disambiguation })));

function noonsAround(at, zone) {
  const day = at.toPlainDate();
  return [-1, 0, 1, 2].map((days) => {
    const date = day.add({ days });
    return [date.toString(), seconds(date.toZonedDateTime({ timeZone: zone, plainTime: "12:00" }))];
  });
}

function aboutZone(zone) {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
  return changesOf(zone).map(([at, before, after]) => ({
    change: [seconds(at), before, after],
    starts: wallsAround(at, before, after).map((wall) => [wall.toString({ smallestUnit: "second" }), meant(wall, zone)]),
    noons: noonsAround(at, zone),
  }));
}

const names = JSON.parse(readFileSync(0, "utf8"));
const zones = Object.fromEntries(names.map((name) => [name, aboutZone(name)]));
console.log(JSON.stringify({ data: process.versions.tz, zones }));
