"""Every screen of the app, one after the other, as somebody comes to it: for pictures and for checks of all of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from playwright.sync_api import APIRequestContext, BrowserContext, Error, Page

SITE = "quinta-das-mares"
TABLES = (
    *("programs", "windows", "closures", "hydrozones", "stations", "supplies", "controllers", "apart", "weather"),
    *("normals", "soil_water", "audits", "cans", "droughts", "tiers", "site"),
)
PAGES = (
    *("settings", "team", "devices", "invite", "password", "help", "first-steps", "lost-phone", "cautions", "about"),
    "sign-out",
)
NEW = ("programs", "windows", "closures", "supplies", "stations")
READY_MS = 15_000
WORKED_OUT_MS = 60_000

Step = Callable[[Page], None]


@dataclass(frozen=True)
class Screen:
    """A place in the app, and what is done there before it is looked at and after."""

    name: str
    path: str
    first: Step | None = None
    last: Step | None = None


class Site:
    """The records of the demo site, to find something of each kind in."""

    def __init__(self, request: APIRequestContext, address: str) -> None:
        answer = request.get(f"{address}/api/sites/{SITE}/document")
        assert answer.ok, answer.text()
        self.records: list[dict[str, Any]] = answer.json()["records"]

    def first(self, table: str) -> dict[str, Any] | None:
        return next((one for one in self.records if one["table"] == table), None)

    def waters(self, hydrozone: str) -> dict[str, Any]:
        """The first turn of a station of this hydrozone."""
        stations = {str(one["id"]) for one in self.records if one.get("hydrozone") == hydrozone}
        return next(one for one in self.records if one["table"] == "turns" and one["station"] in stations)

    def id_of(self, table: str) -> str:
        found = self.first(table)
        assert found, f"the site has no {table}"
        return str(found["id"])


def every_screen(site: Site) -> Iterator[Screen]:
    """As somebody sees them who may change everything."""
    yield from _tonight(site)
    yield from _stations(site)
    yield from _records(site)
    yield from _ahead(site)
    yield from _changes(site)
    yield from _need(site)
    yield from _wet_check()
    yield from (Screen(f"more-{page}", f"more/{page}") for page in ("", *PAGES))
    yield from _happened(site)
    yield Screen("used", "more/used", _wait(".used-slab"))
    yield Screen("used-supply", "more/used/2026/supply", _wait(".used-slab"))
    yield Screen("used-reading", "more/used", _click("details:has(.used-reading) summary"))
    yield Screen("join", "join")
    yield Screen("join-sign-in", "join/sign-in")


def strangers_screens() -> Iterator[Screen]:
    """Those that differ for somebody whom the server does not know, or who has no site."""
    yield from (Screen(name, path) for name, path in _PLAIN.items())


_PLAIN = {"tonight": "", "stations": "stations", "ahead": "ahead", "changes": "changes", "site": "site", "more": "more"}


def _tonight(site: Site) -> Iterator[Screen]:
    part = next(str(one["part"]) for one in site.records if one["table"] == "stations" and one.get("part"))

    def search(page: Page) -> None:
        page.locator("#find").fill(part)
        page.locator("[data-part]").first.click()

    def forget(page: Page) -> None:
        page.locator(".find-box .button").click()
        page.locator("#dry .button").last.click()

    yield Screen("tonight", "")
    yield Screen("tonight-why", "", _click("[data-list=next] .row >> nth=1"), _click("[data-list=next] .row-chosen"))
    yield Screen("tonight-search", "", search, forget)
    yield Screen("tonight-table", "", _click(".as-table summary"), _click(".as-table summary"))
    yield Screen("tonight-another", "tonight/2026-10-27", _wait(".slab:not(:has(.standing))"))
    yield Screen("tonight-help", "", _click(".help-button"), _click(".help-button"))


def _stations(site: Site) -> Iterator[Screen]:
    turn = next(one for one in site.records if one["table"] == "turns" and one.get("run_s"))
    station = f"stations/{turn['station']}"
    step = _click(".stepper-step >> nth=3")

    def choose(page: Page) -> None:
        page.locator(".station-choose").click()
        page.locator(".station-group .button").first.click()

    def stop_choosing(page: Page) -> None:
        arrive(page, "stations")
        page.locator(".station-choose[aria-pressed=true]").click()

    yield Screen("stations", "stations")
    yield Screen("stations-chosen", "stations", choose)
    yield Screen("stations-percent", "stations/percent", step, stop_choosing)
    yield Screen("station", station)
    yield Screen("station-run-time", f"{station}/turn/{turn['id']}", step)
    yield Screen("station-ask", f"{station}/ask")
    yield Screen("stations-ask", "stations/ask")
    yield Screen("seasonal", "stations/seasonal")
    yield Screen("seasonal-program", f"stations/seasonal/{site.id_of('programs')}", step)


def _records(site: Site) -> Iterator[Screen]:
    yield Screen("site", "site")
    for table in TABLES:
        yield Screen(f"site-{table}", f"site/{table}")
        one = site.first(table)
        if table != "site":
            yield Screen(f"site-{table}-one", f"site/{table}/{one['id'] if one else 'new'}")
    yield from (Screen(f"site-{table}-new", f"site/{table}/new") for table in NEW)
    yield Screen("site-closures-tonight", "site/closures/tonight")


def _ahead(site: Site) -> Iterator[Screen]:
    yield Screen("ahead", "ahead")
    yield Screen("ahead-why", "ahead", _click(".ahead-row >> nth=1"), _click(".ahead-row >> nth=1"))
    yield Screen("ahead-programs", "ahead/programs", _click(".grid-field >> nth=0"))
    yield Screen("ahead-program", f"ahead/program/{site.id_of('programs')}")


def _changes(site: Site) -> Iterator[Screen]:
    yield Screen("changes", "changes")
    yield Screen("changes-dispute", "changes", _click("[data-list=waiting] .row >> nth=0"))
    yield Screen("changes-history", "changes/history", _wait(".changes-page li"))
    yield Screen("changes-then", "changes/then")
    yield Screen("changes-unsent", "changes", _leave_unsent(site), _send_nothing)


def _wet_check() -> Iterator[Screen]:
    """One walk, from its cautions to its end, and what it found."""
    found = _click(".wet-form .button-strong")
    close = _click(".wet-summary .wet-acts .button >> nth=-1")

    def see_one(page: Page) -> None:
        page.locator(".repairs .row").first.click()
        page.locator(".repair").wait_for(timeout=READY_MS)

    yield Screen("wet-check", "wet-check", _wait(".wet-go"), _click(".wet-go"))
    yield Screen("wet-check-station", "wet-check", _click(".wet-start"), _click(".wet-start"))
    yield Screen("wet-check-finding", "wet-check", _click(".wet-kind >> nth=0"), found)
    yield Screen("wet-check-found", "wet-check", _wait(".wet-seen"))
    yield Screen("wet-check-summary", "wet-check", _click(".wet-end"), close)
    yield Screen("repairs", "wet-check/repairs", _wait(".repairs .row"))
    yield Screen("repair", "wet-check/repairs", see_one)


def _need(site: Site) -> Iterator[Screen]:
    """One planting by need: its turn is set so as the first of these screens is opened."""
    turn = site.waters("pots")
    other = next(one for one in site.records if one["table"] == "turns" and one["program"] != turn["program"])
    missing = next(one for one in site.records if one["table"] == "hydrozones" and one["id"] != "pots")

    def by_need(page: Page) -> None:
        run_by_need(page.context, _origin(page), [turn])
        page.locator("[data-zone=pots]").wait_for(timeout=READY_MS)

    opened = _click(".chain-step:nth-child(1) summary")
    yield Screen("need", "need")
    yield Screen("need-tonight", "need/tonight", by_need)
    yield Screen("need-turn", f"need/turn/{turn['id']}", _wait(".chain"))
    yield Screen("need-turn-figures", f"need/turn/{turn['id']}", opened)
    yield Screen("need-turn-by-hand", f"need/turn/{other['id']}")
    yield Screen("need-season", "need/hydrozone/pots", _wait(".season-picture svg"))
    yield Screen("need-season-by-hand", f"need/hydrozone/{missing['id']}", _wait(".season-drawn"))
    yield from _money(site)
    yield from _by_hand(site)


def _money(site: Site) -> Iterator[Screen]:
    suggested, limits = "need/suggested", f"need/suggested/{site.id_of('programs')}"
    # What is chosen stays chosen: it is put back.
    put_back = _click(".keep-bar .button")
    yield Screen("need-suggested", suggested, _wait(".suggested-row"))
    yield Screen("need-suggested-limits", suggested, _click(".suggested .as-table summary >> nth=-1"))
    yield Screen("need-suggested-chosen", suggested, _click(".suggested-row input >> nth=3"), put_back)
    yield Screen("need-limits", limits)
    yield Screen("need-budget", "need/budget", _wait(".budget-bars"))
    yield Screen("need-budget-month", "need/budget", _click(".budget-month summary >> nth=6"))
    yield Screen("need-drought", "need/drought", _fill(".drought-form input >> nth=1", "40"), put_back)


def _by_hand(site: Site) -> Iterator[Screen]:
    """What is read outdoors: cans and weather; and the stations that send it by themselves."""
    discard = _click(".save-bar .button")
    day = next(str(one["day"]) for one in site.records if one["table"] == "weather")

    def make_station(page: Page) -> None:
        page.locator(".senders .field-input").fill("Mast by the lagoon")
        page.locator(".senders .button-strong").click()
        page.locator(".sent-token").wait_for(timeout=READY_MS)

    yield Screen("need-audits", "need/audits")
    yield Screen("need-audits-which", "need/audits/new")
    yield Screen("need-audit", f"need/audits/{site.id_of('audits')}", _wait(".wetting svg"))
    yield Screen("need-audit-reading", f"need/audits/{site.id_of('audits')}", _click(".can >> nth=2"))
    yield Screen("need-audit-table", f"need/audits/{site.id_of('audits')}", _click(".audit-table summary"))
    yield Screen("need-audit-new", "need/audits/new/s102", _click(".audit .button-strong"), discard)
    yield Screen("need-weather", "need/weather", _wait(".weather-row"))
    yield Screen("need-weather-day", f"need/weather/{day}", _click(".weather-others summary"))
    yield Screen("need-weather-stations", "need/weather-stations", _wait(".senders form"))
    yield Screen("need-weather-token", "need/weather-stations", make_station, _click(".sent-how .button-strong"))


def _happened(site: Site) -> Iterator[Screen]:
    """The night as it happened."""

    def make_reporter(page: Page) -> None:
        page.locator(".senders .field-input").fill("Cabinet by the gate")
        page.locator(".senders .button-strong").click()
        page.locator(".sent-token").wait_for(timeout=READY_MS)

    def bring_file(page: Page) -> None:
        content = b"Time,Reading\n2026-07-01 08:00,5\n"
        page.locator(".csv-input").set_input_files({"name": "meter.csv", "mimeType": "text/csv", "buffer": content})
        page.locator(".more-form .field-input").first.wait_for(timeout=READY_MS)

    station = site.id_of("stations")
    yield Screen("alarms", "more/alarms", _wait(".alarms"))
    yield Screen("journal", "more/journal", _wait(".journal"))
    yield Screen("journal-note", f"more/journal/station/{station}", _click(".journal-write"))
    yield Screen("journal-bring", "more/journal/bring", bring_file)
    yield Screen("journal-aside", "more/journal/aside", _wait(".journal"))
    yield Screen("journal-reporters", "more/journal/reporters", _wait(".senders form"))
    yield Screen(
        "journal-token", "more/journal/reporters", make_reporter, _click(".sent-how .code-ways .button-strong")
    )


def _origin(page: Page) -> str:
    return "/".join(page.url.split("/")[:3])


def _leave_unsent(site: Site) -> Step:
    turn = next(one for one in site.records if one["table"] == "turns" and one.get("run_s"))

    def leave(page: Page) -> None:
        page.context.set_offline(True)
        arrive(page, f"stations/{turn['station']}/turn/{turn['id']}")
        page.locator(".stepper-step").nth(3).click()
        page.locator(".keep-bar .button-strong").click()
        page.locator(".tray").wait_for(timeout=READY_MS)
        arrive(page, "changes")
        page.locator("[data-list=unsent] li").first.wait_for(timeout=READY_MS)

    return leave


def _send_nothing(page: Page) -> None:
    """What may be on its way already is set back by a second edit."""
    page.locator("[data-list=unsent] .change-act > .button").first.click()
    page.context.set_offline(False)


def _click(selector: str) -> Step:
    return lambda page: page.locator(selector).first.click()


def _fill(selector: str, text: str) -> Step:
    return lambda page: page.locator(selector).first.fill(text)


def _wait(selector: str) -> Step:
    return lambda page: page.locator(selector).first.wait_for(timeout=READY_MS)


def arrive(page: Page, path: str) -> None:
    """Go to a place of the app as a tap on a way there does: nothing is fetched anew."""
    page.evaluate(
        """(path) => {
          history.pushState(null, "", `/${path}${location.search}`);
          dispatchEvent(new PopStateEvent("popstate"));
          scrollTo(0, 0);
        }""",
        path,
    )
    settle(page)


def settle(page: Page) -> None:
    """Until the screen stands and the next frame is drawn."""
    page.locator("h1").first.wait_for(timeout=READY_MS)
    page.evaluate(
        "document.fonts.ready.then(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 60))))"
    )


def visit(page: Page, screen: Screen) -> None:
    """The screen as it is looked at."""
    arrive(page, screen.path)
    if screen.first:
        screen.first(page)
        settle(page)


_WORKED_OUT = "() => !document.querySelector('.effect[aria-busy=true], .turn-effect progress, .effect progress')"


def worked_out(page: Page) -> None:
    """Until the effect of an edit stands on the screen, where there is one. A slow planner is waited for in vain."""
    try:
        page.wait_for_function(_WORKED_OUT, timeout=WORKED_OUT_MS)
    except Error as late:
        print(f"{page.url}: no effect within {WORKED_OUT_MS // 1000} s: {late.message.splitlines()[0]}")


def come_in(context: BrowserContext, address: str, code: str, name: str, language: str = "en") -> str:
    """Somebody with a code. Returns the device they are known by."""
    body = {"code": code, "name": name, "device_name": "Phone", "language": language}
    answer = context.request.post(f"{address}/api/invitations/join", data=body)
    assert answer.ok, answer.text()
    session: dict[str, Any] = context.request.get(f"{address}/api/session").json()
    return str(session["device"])


def set_run_time(context: BrowserContext, address: str, site: Site, run_s: int) -> str:
    """Set the last turn's run time without knowing of whatever was done since. Returns what the server makes of it."""
    turn = [one for one in site.records if one["table"] == "turns" and one.get("run_s")][-1]
    session: dict[str, Any] = context.request.get(f"{address}/api/session").json()
    edit = {"id": str(uuid4()), "format": 1, "kind": "set", "table": "turns", "record": turn["id"], "field": "run"}
    about = {
        "seen": 1,
        "was": {"run_s": turn["run_s"]},
        "now": {"run_s": run_s},
        "phone_time": "2026-10-24T22:48:00+01:00",
    }
    sets = [{"id": str(uuid4()), "site": SITE, "edits": [edit | about]}]
    body = {"device": session["device"], "person": session["person"], "sets": sets}
    answer = context.request.post(f"{address}/api/sync/push", data=body)
    assert answer.ok, answer.text()
    return str(answer.json()["answers"][0]["outcome"])


def run_by_need(context: BrowserContext, address: str, turns: Iterable[dict[str, Any]]) -> None:
    """Have these turns' run times worked out. Where they are already it is taken a second time, and changes nothing."""
    session: dict[str, Any] = context.request.get(f"{address}/api/session").json()
    about = {"format": 1, "kind": "set", "table": "turns", "field": "mode", "seen": 1, "was": None, "now": "need"}
    edits = [
        {"id": str(uuid4()), "record": turn["id"], "phone_time": "2026-10-24T22:48:00+01:00", **about} for turn in turns
    ]
    body = {
        "device": session["device"],
        "person": session["person"],
        "sets": [{"id": str(uuid4()), "site": SITE, "edits": edits}],
    }
    answer = context.request.post(f"{address}/api/sync/push", data=body)
    assert answer.ok, answer.text()
    outcomes = {str(one["outcome"]) for one in answer.json()["answers"]}
    assert outcomes <= {"taken", "agreed"}, outcomes
