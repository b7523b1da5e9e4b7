"""A small site for histories: every kind of thing an edit can do, few enough records that edits meet often."""

from __future__ import annotations

from typing import Any

from builders import a_closure, a_document_data, a_program, a_site, a_station, a_supply, a_turn, a_window

Row = dict[str, Any]
STATIONS = ("s1", "s2", "s3")

FIELDS: dict[tuple[str, str], tuple[Any, ...]] = {
    ("site", "seasonal_pct"): (80, 100, 120),
    ("site", "notes"): ("", "Gate is shut", "Ask in the office"),
    ("stations", "name"): ("Rose bed", "Long lawn", "Orchard"),
    ("stations", "number"): ("11", "12", "13", "14"),
    ("stations", "flow_lpm"): (30, 60, 90),
    ("programs", "rank"): (1, 2, 3),
    ("programs", "limit_lpm"): (None, 100, 200),
    ("turns", "run"): (
        {"run_s": 600, "cycles": 1, "soak_s": 0},
        {"run_s": 900, "cycles": 3, "soak_s": 1200},
        {"run_s": 1800, "cycles": 2, "soak_s": 600},
    ),
    ("turns", "position"): (0, 1, 2),
    ("windows", "hours"): ({"opens": "21:00", "closes": "06:00"}, {"opens": "20:00", "closes": "05:00"}),
}
"""What is edited, and to what: few values, so that two people often choose the same."""

BAD: tuple[tuple[str, str, str, Any], ...] = (
    ("stations", "s1", "flow_lpm", -5),
    ("stations", "s2", "colour", "red"),
    ("stations", "s2", "supply", "no-such-supply"),
    ("turns", "p1.s1", "run", {"run_s": -5, "cycles": 1, "soak_s": 0}),
    ("turns", "p1.s2", "run", {"run_s": 40 * 3600, "cycles": 1, "soak_s": 0}),
    ("programs", "p1", "rank", 99),
    ("programs", "p1", "days", {"days": "weekdays"}),
    ("site", "{site}", "seasonal_pct", "a lot"),
    ("pumps", "x", "name", "A pump"),
)
"""What no site may hold: table, record, field and value."""

REMOVABLE = (("turns", "p1.s1"), ("turns", "p1.s2"), ("turns", "p1.s3"), ("closures", "k1"), ("stations", "s3"))
"""What is taken away and put back. A station cannot go while a turn speaks of it: that is refused."""


def a_small_site(site: str) -> Row:
    """The document of one history's site."""
    return a_document_data(
        site=a_site(site),
        supplies=[a_supply(limit_lpm=200)],
        stations=[a_station(name, number=f"1{place}") for place, name in enumerate(STATIONS, 1)],
        programs=[a_program()],
        turns=[a_turn(station=name, position=place) for place, name in enumerate(STATIONS)],
        windows=[a_window()],
        closures=[a_closure(cause="mowing")],
    )


def records_of(field: tuple[str, str], site: str) -> tuple[str, ...]:
    """The records that have the field."""
    table = field[0]
    if table == "turns":
        return tuple(f"p1.{name}" for name in STATIONS)
    return {"site": (site,), "stations": STATIONS, "programs": ("p1",), "windows": ("w1",)}[table]
