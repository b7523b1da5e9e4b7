/** Where a phone is: the best it comes to know, in bounded time, and never more than once asked for. */

import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { locate } from "./locating";
import { metresBetween, putAt } from "./place";

type Tell = (coords: Partial<GeolocationCoordinates>) => void;

let tell: Tell;
let fail: (code: number) => void;
const clearWatch = vi.fn();

beforeEach(() => {
  vi.useFakeTimers();
  clearWatch.mockClear();
  const watchPosition = (found: PositionCallback, failed: PositionErrorCallback) => {
    tell = (coords) => found({ coords } as GeolocationPosition);
    fail = (code) => failed({ code, PERMISSION_DENIED: 1 } as GeolocationPositionError);
    return 7;
  };
  vi.stubGlobal("navigator", { geolocation: { watchPosition, clearWatch } });
});

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

const at = (accuracy: number, latitude = 37.078) => ({ latitude, longitude: -8.327, accuracy });

it("is told at once where it is known well enough, and the phone is asked no more", async () => {
  const located = locate();
  tell(at(400));
  tell(at(8, 37.079));
  expect(await located).toEqual({ latitude_deg: 37.079, longitude_deg: -8.327, accuracy_m: 8 });
  expect(clearWatch).toHaveBeenCalledWith(7);
});

it("is the best of twenty seconds else", async () => {
  const located = locate();
  tell(at(25, 37.08));
  tell(at(60, 37.09));
  vi.advanceTimersByTime(20_000);
  expect(await located).toMatchObject({ latitude_deg: 37.08, accuracy_m: 25 });
});

it("is not known where nothing was found, though finding it failed for a while", async () => {
  const located = locate();
  fail(2);
  vi.advanceTimersByTime(20_000);
  expect(await located).toBe("unknown");
});

it("is not told where its owner does not allow it", async () => {
  const located = locate();
  fail(1);
  expect(await located).toBe("not_allowed");
});

it("is not known to a browser that cannot tell", async () => {
  vi.stubGlobal("navigator", {});
  expect(await locate()).toBe("unknown");
});

it("becomes a station's as one pair, to a tenth of a metre", () => {
  const place = { latitude_deg: 37.07812345678, longitude_deg: -8.32700000049 };
  const changes = putAt("s1", place);
  expect(changes.map((change) => "field" in change && [change.record, change.field, change.now])).toEqual([
    ["s1", "latitude_deg", 37.078123],
    ["s1", "longitude_deg", -8.327],
  ]);
  expect(metresBetween(place, { latitude_deg: 37.078123, longitude_deg: -8.327 })).toBeLessThan(0.1);
});
