"""Builders of journal entries and of the night they belong to, for the journal's tests."""

from __future__ import annotations

from datetime import date
from itertools import count
from typing import Any

from builders import a_controller, a_document, a_station, a_supply, a_turn, a_window
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet, Run

_numbers = count(1)


def an_entry(kind: Kind, at: int, **fields: Any) -> Entry:
    """Told by a reporter, with an id of its own unless one is given."""
    return Entry(**{"id": f"entry-{next(_numbers):06}", "at": at, "kind": kind, "by": "reporter:r1", **fields})


def opened(station: str, at: int, **fields: Any) -> Entry:
    return an_entry(Kind.OPENED, at, station=station, **fields)


def closed(station: str, at: int, **fields: Any) -> Entry:
    return an_entry(Kind.CLOSED, at, station=station, **fields)


def flow(supply: str, at: int, flow_lpm: float) -> Entry:
    return an_entry(Kind.FLOW, at, supply=supply, flow_lpm=flow_lpm)


def a_park(**fields: Any) -> Document:
    """A source `town` with two mains: `a` with s1 (60 L/min) and s2 (40), `b` with s3 (30) and s4 (20).

    s1, s2 and s3 hang on controller c1, s4 on c2.
    """
    flows = {"s1": ("a", "c1", 60), "s2": ("a", "c1", 40), "s3": ("b", "c1", 30), "s4": ("b", "c2", 20)}
    tables: dict[str, Any] = {
        "supplies": [a_supply(), a_supply("a", fed_by="town"), a_supply("b", fed_by="town")],
        "controllers": [a_controller("c1"), a_controller("c2")],
        "stations": [
            a_station(id, supply=supply, controller=cabinet, flow_lpm=lpm)
            for id, (supply, cabinet, lpm) in flows.items()
        ],
        "turns": [a_turn(station=id, run_s=1200) for id in flows],
        "windows": [a_window()],
    }
    return a_document(**{**tables, **fields})


def a_night(document: Document) -> NightSheet:
    return plan_night(document, date(2026, 7, 1), effort=2)


def run_of(sheet: NightSheet, station: str) -> Run:
    return next(run for run in sheet.runs if run.station == station)


def as_planned(sheet: NightSheet) -> list[Entry]:
    """Every valve opened and closed to the second."""
    return [entry for run in sheet.runs for entry in (opened(run.station, run.start), closed(run.station, run.end))]
