"""Nights of a made-up field with known faults in them, for the detection benchmark. All of it follows from seeds."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from random import Random

from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.journal.outages import path_of
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet, Run
from pengan.field.nature import Nature
from pengan.field.troubles import (
    Break,
    Clogged,
    DeadValve,
    Leak,
    PowerCut,
    Silence,
    StuckMeter,
    StuckOpen,
    Trouble,
)

DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "site.json"
FIRST_NIGHT = date(2026, 6, 1)
APART_S = 2400
"""Two faults of one night begin at least so far apart."""
SEEN_S = 180
WHOLE_S = 600
"""So long a fault at a running station has to be seen."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What was broken: the row of the table it counts in, where, and from which instant on it could be noticed."""

    row: str
    trouble: Trouble
    shows: int
    station: str | None = None
    supply: str | None = None
    controller: str | None = None


@cache
def site() -> Document:
    return read_document(json.loads(DEMO.read_text("utf-8")))


@cache
def sheet_of(night: int) -> NightSheet:
    return plan_night(site(), FIRST_NIGHT + timedelta(night), effort=1)


def nature_of(field: int) -> Nature:
    """How one field differs from the next: better and worse meters, more or less exact documents."""
    chance = Random(f"nature/{field}")
    return Nature(
        read_every_s=chance.choice((30, 60)),
        off_pct=chance.uniform(2, 5),
        noise_pct=chance.uniform(0.5, 2),
        step_lpm=chance.choice((0.1, 0.5, 1.0)),
        fill_pct=chance.uniform(20, 50),
    )


def faults_of(field: int, night: int) -> list[Fault]:
    """One fault in most nights, two or three in some, well apart in time and at different supplies."""
    chance, sheet = Random(f"faults/{field}/{night}"), sheet_of(night)
    wanted = chance.choices((1, 2, 3), (70, 20, 10))[0]
    found: list[Fault] = []
    for _ in range(200):
        fault = _fault(chance, sheet)
        if fault and all(_apart(fault, other) for other in found):
            found.append(fault)
        if len(found) == wanted:
            break
    return sorted(found, key=lambda one: one.trouble.at)


def _apart(one: Fault, other: Fault) -> bool:
    sources = [path_of(site(), fault.supply)[-1] if fault.supply else None for fault in (one, other)]
    unseen = any(_in_the_dark(first, second) for first, second in ((one, other), (other, one)))
    return not unseen and abs(one.shows - other.shows) >= APART_S and (sources[0] != sources[1] or None in sources)


def _in_the_dark(fault: Fault, other: Fault) -> bool:
    """Whether a fault begins while another keeps it from showing: no power at the site, or at its station's cabinet."""
    if not isinstance(other.trouble, PowerCut):
        return False
    cabinet = site().stations[fault.station].controller if fault.station else None
    dark = other.controller is None or other.controller == cabinet
    return dark and other.trouble.at <= fault.shows <= other.trouble.ended + APART_S


def _fault(chance: Random, sheet: NightSheet) -> Fault | None:
    kinds = (
        _break_at_station, _break_at_supply, _small_break, _leak, _small_leak, _stuck_open, _dead_valve, _clogged,
        _stuck_meter, _silence, _controller_cut, _site_cut,
    )  # fmt: skip
    return chance.choices(kinds, (4, 3, 2, 4, 2, 3, 3, 2, 2, 2, 2, 1))[0](chance, sheet)


def _during(chance: Random, sheet: NightSheet) -> tuple[Run, int]:
    """A run, and an instant in it that leaves time enough."""
    run = chance.choice([run for run in sheet.runs if run.end - run.start > WHOLE_S + 60])
    return run, chance.randrange(run.start, run.end - WHOLE_S)


def draw_about(sheet: NightSheet, supply: str, at: int) -> float:
    """The most a supply draws from an instant on until a break there should have been found."""
    edges = [start for start, _ in next(draw.steps for draw in sheet.draws if draw.supply == supply)]
    return max(draw_at(sheet, supply, then) for then in (at, *(one for one in edges if at < one <= at + SEEN_S)))


def draw_at(sheet: NightSheet, supply: str, at: int) -> float:
    steps = next(draw.steps for draw in sheet.draws if draw.supply == supply)
    return max((step for step in steps if step[0] <= at), default=(0, 0.0))[1]


def _break_at_station(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    size = draw_about(sheet, run.supply, at) * chance.uniform(0.2, 1.0)
    return Fault("break at a station", Break(at=at, station=run.station, flow_lpm=size), at, run.station, run.supply)


def _break_at_supply(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    supply = chance.choice(path_of(site(), run.supply))
    size = draw_about(sheet, supply, at) * chance.uniform(0.2, 0.8)
    return Fault("break in a pipe", Break(at=at, supply=supply, flow_lpm=size), at, supply=supply)


def _small_break(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    size = draw_about(sheet, run.supply, at) * chance.uniform(0.08, 0.2)
    trouble = Break(at=at, station=run.station, flow_lpm=size)
    return Fault("break of 8 to 20 %", trouble, at, run.station, run.supply)


def _leak(chance: Random, sheet: NightSheet) -> Fault:
    return _leak_of(chance, sheet, "leak of 5 L/min and more", 5, 25)


def _small_leak(chance: Random, sheet: NightSheet) -> Fault:
    return _leak_of(chance, sheet, "leak of 1 to 5 L/min", 1, 5)


def _leak_of(chance: Random, sheet: NightSheet, row: str, least: float, most: float) -> Fault:
    supply = chance.choice(sorted(site().supplies))
    at = chance.randrange(sheet.starts + 3600, sheet.ends - 7200)
    leak = Leak(at=at, supply=supply, flow_lpm=chance.uniform(least, most))
    return Fault(row, leak, _idle_from(sheet, supply, at), supply=supply)


def _idle_from(sheet: NightSheet, supply: str, at: int) -> int:
    """The first instant from `at` on with nothing open below a supply."""
    for start, flow in next(draw.steps for draw in sheet.draws if draw.supply == supply):
        if start >= at and draw_at(sheet, supply, at) > 0 and flow == 0:
            return start
    return at


def _stuck_open(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    return Fault("valve stuck open", StuckOpen(at=at, station=run.station), run.end, run.station, run.supply)


def _dead_valve(chance: Random, sheet: NightSheet) -> Fault:
    run, _ = _during(chance, sheet)
    dead = DeadValve(at=run.start - 60, station=run.station)
    return Fault("dead valve", dead, run.start, run.station, run.supply)


def _clogged(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    supply = chance.choice(path_of(site(), run.supply))
    clogged = Clogged(at=at, supply=supply, loss_pct=chance.uniform(20, 60), over_s=chance.randrange(600, 7200))
    return Fault("clogged filter", clogged, at, supply=supply)


def _stuck_meter(chance: Random, sheet: NightSheet) -> Fault:
    run, at = _during(chance, sheet)
    supply = chance.choice(path_of(site(), run.supply))
    return Fault("stuck meter", StuckMeter(at=at, supply=supply), at, supply=supply)


def _silence(chance: Random, sheet: NightSheet) -> Fault | None:
    run, at = _during(chance, sheet)
    if run.controller is None:
        return None
    silent = Silence(at=at, until=at + chance.randrange(3600, 4 * 3600), controller=run.controller)
    return Fault("silent controller", silent, at, controller=run.controller)


def _controller_cut(chance: Random, sheet: NightSheet) -> Fault | None:
    run, at = _during(chance, sheet)
    if run.controller is None:
        return None
    cut = PowerCut(at=at, until=at + chance.randrange(1800, 3 * 3600), controller=run.controller)
    return Fault("power cut at a cabinet", cut, at, controller=run.controller)


def _site_cut(chance: Random, sheet: NightSheet) -> Fault:
    _, at = _during(chance, sheet)
    return Fault("power cut of the site", PowerCut(at=at, until=at + chance.randrange(1800, 2 * 3600)), at)
