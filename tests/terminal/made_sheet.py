"""A small document and a made-up sheet of it, so that pages are tested without the planner."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

import builders as made
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.message import saying
from pengan.engine.plan.sheet import Bound, NightSheet, Run, Rung, Shortfall
from pengan.terminal.night_page import View
from pengan.words import Reader
from pengan.words.wall import SiteWall

WAITS = saying("test.waits", "Waits for {supply} to fall below {limit_lpm}.")
STARTS = saying("test.starts", "The program starts.")
DECIDES = saying("test.decides", "{supply} decides: its flow limit.")
FULL = saying("test.full", "{supply} has no water left.")
NOTICE = saying("test.notice", "Made for a test.")

DOCUMENT = made.a_document(
    supplies=[made.a_supply("town", name="Main North")],
    stations=[
        made.a_station("s1", number="N14", name="Palm walk", part="North", supply="town", flow_lpm=240),
        made.a_station("s2", number="E2", name="Rose bed", part="", supply="town", flow_lpm=60),
    ],
    programs=[made.a_program("p1", name="Evening", letter="A")],
)
CLOCK = clock_of(DOCUMENT.site)


def a_run(station: str, start: int, minutes: int, **fields: Any) -> Run:
    """A run of one of the two stations, `start` seconds after the night's."""
    usual: dict[str, Any] = {
        "turn": f"t-{station}", "station": station, "program": "p1", "supply": "town", "controller": None,
        "cycle": 1, "cycles": 1, "start": start, "end": start + minutes * 60,
        "start_local": CLOCK.iso(start), "end_local": CLOCK.iso(start + minutes * 60),
        "flow_lpm": 240.0, "volume_l": 240.0 * minutes, "why": WAITS(supply="town", limit_lpm=240),
        "ladder": (Rung(STARTS(), start - 3600), Rung(WAITS(supply="town", limit_lpm=240), start)),
    }  # fmt: skip
    return Run(**usual | fields)


def a_sheet(day: date, runs: Sequence[Run] | None = None, **fields: Any) -> NightSheet:
    """A sheet with one run of each station, at 23:42 and at 01:17, unless others are given."""
    night = night_on(CLOCK, day)
    late = night.starts + 11 * 3600 + 42 * 60
    given = (a_run("s1", late, 12), a_run("s2", late + 95 * 60, 90)) if runs is None else tuple(runs)
    volume = sum(run.volume_l for run in given)
    usual: dict[str, Any] = {
        "site": "site", "night": day.isoformat(), "starts": night.starts, "ends": night.ends,
        "starts_local": CLOCK.iso(night.starts), "ends_local": CLOCK.iso(night.ends), "zone": CLOCK.name,
        "zone_data": CLOCK.data_version, "engine": "test", "runs": given, "shortfalls": (), "draws": (), "closed": (),
        "finish": max((run.end for run in given), default=None), "bound": None, "notices": (),
        "volume_due_l": volume, "volume_l": volume, "moved_pct": None, "order": (), "constructions": 1,
    }  # fmt: skip
    return NightSheet(**usual | fields)


def a_shortfall() -> Shortfall:
    """The rose bed lacks 4.5 m³."""
    return Shortfall("t-s2", "s2", "p1", "town", 1, 1800, 4500.0, FULL(supply="town"))


def a_bound(at: int) -> Bound:
    """Held by the one supply, without relief."""
    return Bound(at, DECIDES(supply="town"), None)


def a_view(sheet: NightSheet, reader: Reader, now: int | None = None) -> View:
    """Seen at the night's start unless told otherwise."""
    wall = SiteWall(CLOCK, sheet.starts, sheet.ends)
    return View(sheet, DOCUMENT, wall, reader, sheet.starts if now is None else now)
