import { beforeEach, expect, it, vi } from "vitest";
import { person } from "../store/queries";
import { digits, hours, language, ownUnits, putChoices, units } from "../words/reader";
import { agree, followProfile, take } from "./own-profile";
import type { Profile } from "./profile-fields";

const profile: Profile = {
  name: "Inês Falcão",
  language: "en",
  units: "us,flow=lps",
  hour_cycle: "12",
  first_day: null,
  digits: "arab",
};
const answer = { person: "p1", device: "d1", team: "t1", profile, sign_in_name: null, sites: [] };
const asked = vi.fn<(path: string, request: RequestInit) => Promise<Response>>();

function json(body: unknown): Response {
  return new Response(JSON.stringify(body), { headers: { "Content-Type": "application/json" } });
}

const kept = new Map<string, string>();
vi.stubGlobal("localStorage", {
  getItem: (key: string) => kept.get(key) ?? null,
  setItem: (key: string, value: string) => kept.set(key, value),
  removeItem: (key: string) => kept.delete(key),
});
vi.stubGlobal("location", { search: "" });
vi.stubGlobal("fetch", asked);
vi.useFakeTimers();

putChoices({ language: "en", units: "metric", ownUnits: {}, hours: "", digits: "latn" });
followProfile();

beforeEach(() => {
  kept.clear();
  asked.mockReset();
  person.value = { id: "p1", name: "Inês Falcão", device: "d1", sites: [] };
  take({ ...profile, units: "metric", hour_cycle: null, digits: null });
});

it("takes the profile where nothing was changed here", async () => {
  asked.mockResolvedValueOnce(json(answer));
  await agree();
  expect([units.value, ownUnits.value, hours.value, digits.value]).toEqual(["us", { flow: "lps" }, "12", "arab"]);
  expect(kept.size).toBe(0);
});

it("sends what was changed here, and until it is through takes nothing", async () => {
  hours.value = "24";
  asked.mockRejectedValueOnce(new TypeError("no line"));
  await agree();
  expect([...kept.values()]).toEqual(["p1"]);
  asked.mockResolvedValueOnce(json({ ...answer, profile: { ...profile, hour_cycle: "24" } }));
  await agree();
  const [path, request] = asked.mock.calls[1] ?? [];
  expect([path, request?.method]).toEqual(["/api/session/profile", "PUT"]);
  expect(JSON.parse(String(request?.body))).toMatchObject({ name: "Inês Falcão", hour_cycle: "24", units: "metric" });
  expect([hours.value, kept.size]).toEqual(["24", 0]);
});

it("never sends one person's changes as another's", async () => {
  hours.value = "24";
  person.value = { id: "p2", name: "Bikram Thapa", device: "d1", sites: [] };
  asked.mockResolvedValueOnce(json({ ...answer, person: "p2" }));
  await agree();
  expect(asked.mock.calls.map(([path, request]) => [path, request.method ?? "GET"])).toEqual([["/api/session", "GET"]]);
});

it("leaves alone what the address asks for", () => {
  take(profile, new URLSearchParams("hours=24&language=ar-XB"));
  expect([hours.value, language.value, units.value]).toEqual(["", "en", "us"]);
});

it("says nothing to the server while nobody is signed in", async () => {
  person.value = null;
  hours.value = "12";
  await agree();
  expect(asked).not.toHaveBeenCalled();
});
