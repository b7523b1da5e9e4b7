"""Builders of documents for tests: sensible defaults, only what a test is about needs to be said.

A document is built as JSON (what a file holds) and read by the real reader, so that no test stands on a
document that could not exist:

    document = a_document(stations=[a_station("s1", flow_lpm=40)], turns=[a_turn("p1", "s1", run_s=600)])

Whatever table is left out gets a default: a site in Lisbon's zone, one source `town` without a limit, one
program `p1` every day, a turn of ten minutes in it for each station. Give an empty list for none at all.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.document.tables import FORMAT

Row = dict[str, Any]
PLACE: Row = {"latitude_deg": 37.02, "longitude_deg": -7.61}


def a_site(id: str = "site", **fields: Any) -> Row:
    """A site in Lisbon's zone, unless a clock is given."""
    clock = {} if {"zone_rule", "zone_changes"} & fields.keys() else {"zone": "Europe/Lisbon"}
    return {"table": "site", "id": id, "name": "Test site", **clock, **PLACE, **fields}


def a_supply(id: str = "town", **fields: Any) -> Row:
    """A source without limits; `fed_by=` makes it a main."""
    return {"table": "supplies", "id": id, "name": id.title(), **fields}


def a_controller(id: str = "c1", **fields: Any) -> Row:
    """A cabinet without limits."""
    return {"table": "controllers", "id": id, "name": id.title(), **fields}


def a_hydrozone(id: str = "h1", **fields: Any) -> Row:
    """A planting."""
    return {"table": "hydrozones", "id": id, "name": id.title(), **fields}


def a_station(id: str = "s1", **fields: Any) -> Row:
    """A station of 60 L/min on `town`, its number its id."""
    return {"table": "stations", "id": id, "number": id, "name": id.title(), "supply": "town", "flow_lpm": 60, **fields}


def a_program(id: str = "p1", **fields: Any) -> Row:
    """A program for every day, from noon on."""
    return {"table": "programs", "id": id, "name": id.title(), **fields}


def a_turn(program: str = "p1", station: str = "s1", **fields: Any) -> Row:
    """A turn of ten minutes in one cycle; its id is `program.station` unless given."""
    return {
        "table": "turns",
        "id": f"{program}.{station}",
        "program": program,
        "station": station,
        "run_s": 600,
        **fields,
    }


def a_window(id: str = "w1", **fields: Any) -> Row:
    """A window of the whole site from 21:00 to 06:00, every day."""
    return {"table": "windows", "id": id, "opens": "21:00", "closes": "06:00", **fields}


def a_closure(id: str = "k1", **fields: Any) -> Row:
    """A closure of the whole site, every day from 22:00 to 23:00 unless another span is given."""
    span = {} if {"starts", "ends", "starts_on", "ends_on"} & fields.keys() else {"starts": "22:00", "ends": "23:00"}
    return {"table": "closures", "id": id, "name": id.title(), **span, **fields}


def an_apart(station: str = "s1", other: str = "s2", **fields: Any) -> Row:
    """Two stations never open together."""
    return {"table": "apart", "id": f"{station}.{other}", "station": station, "other": other, **fields}


def an_asked(night: str, id: str = "a1", **fields: Any) -> Row:
    """A run asked for: give `program=`, or `station=` (ten minutes unless `run_s=` is given)."""
    time = {"run_s": 600} if "station" in fields else {}
    return {"table": "asked", "id": id, "night": night, **time, **fields}


def a_document_data(
    *,
    site: Row | None = None,
    supplies: Iterable[Row] | None = None,
    controllers: Iterable[Row] = (),
    hydrozones: Iterable[Row] = (),
    stations: Iterable[Row] | None = None,
    programs: Iterable[Row] | None = None,
    turns: Iterable[Row] | None = None,
    windows: Iterable[Row] = (),
    closures: Iterable[Row] = (),
    apart: Iterable[Row] = (),
    asked: Iterable[Row] = (),
    others: Iterable[Row] = (),
) -> dict[str, Any]:
    """The document as JSON, valid or not: for tests of the reader, of files and of the line."""
    stations = [a_station()] if stations is None else list(stations)
    programs = [a_program()] if programs is None else list(programs)
    if turns is None:
        turns = [a_turn(programs[0]["id"], row["id"]) for row in stations] if programs else []
    supplies = [a_supply()] if supplies is None else supplies
    tables = (supplies, controllers, hydrozones, stations, programs, turns, windows, closures, apart, asked, others)
    return {"format": FORMAT, "records": [site or a_site(), *(row for table in tables for row in table)]}


def a_document(**tables: Any) -> Document:
    """The document of `a_document_data`, read. Raises `DocumentFaults` where the test's records have faults."""
    return read_document(a_document_data(**tables))
