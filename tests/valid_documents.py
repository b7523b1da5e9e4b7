"""Hypothesis strategies for valid documents as JSON: small sites that use every table, field and kind of rule.

`documents()` gives whole documents. Its records hang together (ids exist, no loops, one clock), so the reader
takes every one; numbers are on the scale of real sites, so that nights are worth planning.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy, composite

from builders import FORMAT

Row = dict[str, Any]

NAMES = st.text(alphabet="abc ÁçñжשÜ水-0", min_size=1, max_size=12).filter(lambda name: name.strip() != "")
ZONES = ("Europe/Lisbon", "Australia/Lord_Howe", "America/Santiago", "Asia/Kathmandu", "Africa/Casablanca", "UTC")
ZONE_RULES = ("WET0WEST,M3.5.0/1,M10.5.0", "<+0545>-5:45", "IST-1GMT0,M10.5.0,M3.5.0/1")
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
WALL = st.builds("{:02d}:{:02d}".format, st.integers(0, 23), st.sampled_from((0, 15, 30, 59)))
SUN = st.builds("{}{}".format, st.sampled_from(("sunrise", "sunset")), st.sampled_from(("", "-00:30", "+01:15")))
DATES = st.dates(min_value=date(2026, 1, 1), max_value=date(2027, 12, 31))


def maybe(strategy: SearchStrategy[Any]) -> SearchStrategy[Any]:
    """The value, or None: not set."""
    return st.none() | strategy


@composite
def day_rules(draw: DrawFn, asked: bool = False) -> Row:
    """A day rule of any kind, with or without a season."""
    kinds = ["every_day", "weekdays", "every_n", "odd", "even", "dates"] + (["asked"] if asked else [])
    row: Row = {"days": draw(st.sampled_from(kinds))}
    if row["days"] == "weekdays":
        row["weekdays"] = ",".join(draw(st.lists(st.sampled_from(WEEKDAYS), min_size=1, max_size=7, unique=True)))
    if row["days"] == "every_n":
        row |= {"every_n_days": draw(st.integers(1, 9)), "every_from": draw(DATES).isoformat()}
    if row["days"] == "dates":
        row["dates"] = ", ".join(day.isoformat() for day in draw(st.lists(DATES, min_size=1, max_size=4)))
    if draw(st.booleans()):
        row |= {"season_from": draw(DATES).strftime("%m-%d"), "season_to": draw(DATES).strftime("%m-%d")}
    return row


@composite
def documents(draw: DrawFn, most_stations: int = 8) -> dict[str, Any]:
    """A valid document as JSON, its records in any order."""
    placed = draw(st.booleans())
    clocks = WALL | SUN if placed else WALL
    site = draw(_sites(placed, clocks))
    supplies = draw(_supplies())
    controllers = draw(_controllers())
    hydrozones = [{"table": "hydrozones", "id": f"h{n}", "name": draw(NAMES)} for n in range(draw(st.integers(0, 2)))]
    ids = {
        "supply": [row["id"] for row in supplies],
        "controller": [row["id"] for row in controllers],
        "hydrozone": [row["id"] for row in hydrozones],
    }
    stations = [draw(_stations(number, ids)) for number in range(draw(st.integers(1, most_stations)))]
    programs = [draw(_programs(number, clocks)) for number in range(draw(st.integers(0, 4)))]
    ids |= {"station": [row["id"] for row in stations], "program": [row["id"] for row in programs]}
    rows = [site, *supplies, *controllers, *hydrozones, *stations, *programs]
    if programs:
        rows += [draw(_turns(number, ids)) for number in range(draw(st.integers(0, 12)))]
    rows += [draw(_windows(number, ids, clocks)) for number in range(draw(st.integers(0, 3)))]
    rows += [draw(_closures(number, ids, clocks)) for number in range(draw(st.integers(0, 3)))]
    if len(stations) > 1:
        rows += [draw(_pairs(number, ids)) for number in range(draw(st.integers(0, 2)))]
    rows += [draw(_asked(number, ids, clocks)) for number in range(draw(st.integers(0, 2)))]
    return {"format": FORMAT, "records": draw(st.permutations(rows))}


@composite
def _sites(draw: DrawFn, placed: bool, clocks: SearchStrategy[str]) -> Row:
    row: Row = {"table": "site", "id": "site", "name": draw(NAMES)}
    rule = draw(st.booleans())
    row |= {"zone_rule": draw(st.sampled_from(ZONE_RULES))} if rule else {"zone": draw(st.sampled_from(ZONES))}
    if placed:
        row |= {"latitude_deg": draw(st.floats(-80, 80)), "longitude_deg": draw(st.floats(-180, 180))}
    row |= {"seasonal_pct": draw(st.integers(0, 200)), "finish_by": draw(maybe(clocks))}
    return row | {"aim": draw(st.sampled_from(("earliest", "latest")))}


@composite
def _supplies(draw: DrawFn) -> list[Row]:
    rows: list[Row] = []
    for number in range(draw(st.integers(1, 4))):
        above = [row["id"] for row in rows]
        fed_by = draw(maybe(st.sampled_from(above))) if above else None
        limit = draw(maybe(st.floats(20, 500)))
        row: Row = {"table": "supplies", "id": f"u{number}", "name": draw(NAMES), "fed_by": fed_by, "limit_lpm": limit}
        row["water"] = draw(st.sampled_from(("well", "pond", "town", "reclaimed", "rain")))
        if limit is not None and draw(st.booleans()):
            row |= {"steady_lpm": limit * 0.8, "least_lpm": limit * draw(st.sampled_from((0, 0.1, 0.5)))}
        rows.append(row | ({"lead_s": draw(st.integers(0, 900))} if fed_by is None else {}))
    return rows


@composite
def _controllers(draw: DrawFn) -> list[Row]:
    rows: list[Row] = []
    for number in range(draw(st.integers(0, 2))):
        row: Row = {"table": "controllers", "id": f"c{number}", "name": draw(NAMES)}
        row["max_open"] = draw(maybe(st.integers(1, 4)))
        row["max_current_ma"] = draw(maybe(st.integers(200, 2000)))
        rows.append(row | ({"valve_gap_s": draw(st.integers(0, 20))} if row["max_open"] else {}))
    return rows


def _one_of(ids: list[str]) -> SearchStrategy[str | None]:
    return maybe(st.sampled_from(ids)) if ids else st.none()


@composite
def _stations(draw: DrawFn, number: int, ids: dict[str, list[str]]) -> Row:
    return {
        "table": "stations",
        "id": f"s{number}",
        "number": str(number),
        "name": draw(NAMES),
        "part": draw(st.sampled_from(("", "North", "South"))),
        "supply": draw(st.sampled_from(ids["supply"])),
        "controller": draw(_one_of(ids["controller"])),
        "hydrozone": draw(_one_of(ids["hydrozone"])),
        "flow_lpm": draw(st.floats(1, 200)),
        "current_ma": draw(st.integers(0, 400)),
        "area_m2": draw(maybe(st.floats(1, 900))),
        "heads": draw(maybe(st.sampled_from(("spray", "rotor", "drip", "bubbler", "micro")))),
    }


@composite
def _programs(draw: DrawFn, number: int, clocks: SearchStrategy[str]) -> Row:
    row = {"table": "programs", "id": f"p{number}", "name": draw(NAMES), **draw(day_rules(asked=True))}
    row |= {"start": draw(maybe(clocks)), "finish_by": draw(maybe(clocks)), "rank": draw(st.integers(1, 9))}
    row |= {"aim": draw(maybe(st.sampled_from(("earliest", "latest")))), "seasonal_pct": draw(st.integers(0, 150))}
    row |= {"limit_lpm": draw(maybe(st.floats(20, 300))), "max_open": draw(maybe(st.integers(1, 4)))}
    return row | {"order": draw(st.sampled_from(("free", "listed")))}


@composite
def _turns(draw: DrawFn, number: int, ids: dict[str, list[str]]) -> Row:
    return {
        "table": "turns",
        "id": f"t{number}",
        "program": draw(st.sampled_from(ids["program"])),
        "station": draw(st.sampled_from(ids["station"])),
        "position": draw(st.integers(0, 20)),
        "run_s": draw(st.integers(1, 7200)),
        "cycles": draw(st.integers(1, 5)),
        "soak_s": draw(st.integers(0, 3600)),
        "rank": draw(maybe(st.integers(1, 9))),
    }


@composite
def _scopes(draw: DrawFn, ids: dict[str, list[str]]) -> Row:
    field = draw(maybe(st.sampled_from(sorted(name for name in ids if ids[name]))))
    return {} if field is None else {field: draw(st.sampled_from(ids[field]))}


@composite
def _windows(draw: DrawFn, number: int, ids: dict[str, list[str]], clocks: SearchStrategy[str]) -> Row:
    row = {"table": "windows", "id": f"w{number}", **draw(day_rules()), **draw(_scopes(ids))}
    return row | {"opens": draw(clocks), "closes": draw(clocks)}


@composite
def _closures(draw: DrawFn, number: int, ids: dict[str, list[str]], clocks: SearchStrategy[str]) -> Row:
    row = {"table": "closures", "id": f"k{number}", "name": draw(NAMES), **draw(_scopes(ids))}
    row["cause"] = draw(st.sampled_from(("authority", "event", "mowing", "works", "tide", "other")))
    if draw(st.booleans()):
        return row | draw(day_rules()) | {"starts": draw(clocks), "ends": draw(clocks)}
    days = sorted(draw(st.lists(DATES, min_size=2, max_size=2, unique=True)))
    return row | {"starts_on": f"{days[0].isoformat()}T22:00", "ends_on": f"{days[1].isoformat()}T01:30"}


@composite
def _pairs(draw: DrawFn, number: int, ids: dict[str, list[str]]) -> Row:
    one, other = draw(st.lists(st.sampled_from(ids["station"]), min_size=2, max_size=2, unique=True))
    return {"table": "apart", "id": f"a{number}", "station": one, "other": other}


@composite
def _asked(draw: DrawFn, number: int, ids: dict[str, list[str]], clocks: SearchStrategy[str]) -> Row:
    row: Row = {"table": "asked", "id": f"q{number}", "night": draw(DATES).isoformat(), "at": draw(maybe(clocks))}
    if ids["program"] and draw(st.booleans()):
        return row | {"program": draw(st.sampled_from(ids["program"]))}
    return row | {"station": draw(st.sampled_from(ids["station"])), "run_s": draw(st.integers(1, 3600))}
