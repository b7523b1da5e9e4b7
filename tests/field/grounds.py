"""A small field for tests: a source with two mains, three stations, and what is read of it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

import builders as made
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet, Run
from pengan.field.nature import Nature
from pengan.field.play import play
from pengan.field.troubles import Trouble

NIGHT = date(2026, 7, 10)
EXACT = Nature(off_pct=0, noise_pct=0, step_lpm=0, count_step_l=0)
"""Meters that read true, and stations that give what the document says: for tests of what troubles do."""
SEED = 7


def a_field() -> tuple[Document, NightSheet]:
    """One well with the mains north (two stations, one after the other) and south (one, beside them)."""
    document = made.a_document(
        supplies=[
            made.a_supply("well", water="well", limit_lpm=150),
            made.a_supply("north", fed_by="well", limit_lpm=80),
            made.a_supply("south", fed_by="well", limit_lpm=80),
        ],
        controllers=[made.a_controller("cab-n"), made.a_controller("cab-s")],
        stations=[
            made.a_station("n1", supply="north", controller="cab-n", flow_lpm=60),
            made.a_station("n2", supply="north", controller="cab-n", flow_lpm=50),
            made.a_station("s1", supply="south", controller="cab-s", flow_lpm=40),
        ],
        programs=[made.a_program("p1", start="22:00")],
        turns=[
            made.a_turn("p1", "n1", run_s=3600),
            made.a_turn("p1", "n2", run_s=3600),
            made.a_turn("p1", "s1", run_s=7200),
        ],
        windows=[made.a_window()],
    )
    return document, plan_night(document, NIGHT, effort=1)


def run_of(sheet: NightSheet, station: str) -> Run:
    """The run of a station that has one."""
    (found,) = (run for run in sheet.runs if run.station == station)
    return found


def played(*troubles: Trouble, nature: Nature = EXACT, seed: int = SEED) -> list[Entry]:
    """The small field's night."""
    document, sheet = a_field()
    return list(play(document, sheet, seed, troubles, nature))


def flows(entries: Iterable[Entry], supply: str) -> dict[int, float]:
    """A meter's readings by instant."""
    found = (entry for entry in entries if entry.kind is Kind.FLOW and entry.supply == supply)
    return {entry.at: entry.flow_lpm for entry in found if entry.flow_lpm is not None}


def counts(entries: Iterable[Entry], supply: str) -> list[float]:
    """What a counter showed, in order."""
    found = (entry for entry in entries if entry.kind is Kind.COUNT and entry.supply == supply)
    return [entry.count_l for entry in found if entry.count_l is not None]


def flow_at(entries: Iterable[Entry], supply: str, at: int) -> float:
    """The last reading at or before an instant."""
    readings = flows(entries, supply)
    return readings[max(when for when in readings if when <= at)]
