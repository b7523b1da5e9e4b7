"""The site's clock for people, in the night the clock goes back."""

from __future__ import annotations

from datetime import date

from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import zone_clock
from pengan.words import Reader
from pengan.words.wall import SiteWall

READER = Reader("en-GB")
CLOCK = zone_clock("Europe/Lisbon")
# Lisbon left summer time at 01:00Z on 25 October 2026 (IANA zone data): 01:00 to 02:00 ran twice.
CHANGE = 1_792_890_000


def _wall(day: date) -> SiteWall:
    night = night_on(CLOCK, day)
    return SiteWall(CLOCK, night.starts, night.ends)


def test_an_hour_that_comes_twice_is_told_apart() -> None:
    wall = _wall(date(2026, 10, 24))
    seventeen = 17 * 60
    times = [wall.time(CHANGE + shift + seventeen, READER) for shift in (-7200, -3600, 0, 3600)]
    assert times == ["00:17", "01:17¹", "01:17²", "02:17"]
    assert [wall.offset(CHANGE + shift) for shift in (-1, 0)] == ["+01:00", "+00:00"]


def test_other_nights_carry_no_marks() -> None:
    wall = _wall(date(2026, 11, 24))
    assert not wall.changes
    assert wall.time(CHANGE + 30 * 86_400, READER) == "01:00"


def test_an_hour_that_does_not_exist_needs_no_mark() -> None:
    wall = _wall(date(2026, 3, 28))
    (change,) = wall.changes
    assert [wall.time(change.at + shift, READER) for shift in (-60, 0)] == ["00:59", "02:00"]
