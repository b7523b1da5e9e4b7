"""Nights of a made-up field with known faults in them, for the detection benchmark. All of it follows from seeds.

Seed 0 is what the watch's limits were chosen by: ten fields at the demo site. Any other seed has fields of its own, in
nights of its own; every second of them is at a site that nobody has seen (`field_sites`).
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache, cached_property
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

from .field_sites import made_up_site

DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "site.json"
FIELDS = 10
FIRST_NIGHT, NIGHTS_APART = date(2026, 6, 1), 60
"""Night 0 of seed 0, and how many days later it is with each further seed."""
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
def demo_site() -> Document:
    return read_document(json.loads(DEMO.read_text("utf-8")))


class Field:
    """One of a seed's ten fields, from 1 on: a site, its nights from a day on, and how things behave there."""

    def __init__(self, seed: int, number: int) -> None:
        self.number = FIELDS * seed + number
        self.site = made_up_site(self.number) if seed and number % 2 == 0 else demo_site()
        self.first_night = FIRST_NIGHT + timedelta(NIGHTS_APART * seed)
        self._sheets: dict[int, NightSheet] = {}

    def sheet_of(self, night: int) -> NightSheet:
        if night not in self._sheets:
            self._sheets[night] = plan_night(self.site, self.first_night + timedelta(night), effort=1)
        return self._sheets[night]

    @cached_property
    def nature(self) -> Nature:
        """How one field differs from the next: better and worse meters, more or less exact documents."""
        chance = Random(f"nature/{self.number}")
        return Nature(
            read_every_s=chance.choice((30, 60)),
            off_pct=chance.uniform(2, 5),
            noise_pct=chance.uniform(0.5, 2),
            step_lpm=chance.choice((0.1, 0.5, 1.0)),
            fill_pct=chance.uniform(20, 50),
        )

    def faults_of(self, night: int) -> list[Fault]:
        """One fault in most nights, two or three in some, well apart in time and at different supplies."""
        return _Faults(self.site, self.sheet_of(night), Random(f"faults/{self.number}/{night}")).drawn()


@dataclass(frozen=True, slots=True)
class _Faults:
    """Draws the faults of one night."""

    site: Document
    sheet: NightSheet
    chance: Random

    def drawn(self) -> list[Fault]:
        wanted = self.chance.choices((1, 2, 3), (70, 20, 10))[0]
        found: list[Fault] = []
        for _ in range(200):
            fault = self._fault()
            if fault and all(self._apart(fault, other) for other in found):
                found.append(fault)
            if len(found) == wanted:
                break
        return sorted(found, key=lambda one: one.trouble.at)

    def _apart(self, one: Fault, other: Fault) -> bool:
        sources = [path_of(self.site, fault.supply)[-1] if fault.supply else None for fault in (one, other)]
        unseen = any(self._in_the_dark(first, second) for first, second in ((one, other), (other, one)))
        return not unseen and abs(one.shows - other.shows) >= APART_S and (sources[0] != sources[1] or None in sources)

    def _in_the_dark(self, fault: Fault, other: Fault) -> bool:
        """Whether a fault begins while another keeps it from showing: no power at the site, or at its cabinet."""
        if not isinstance(other.trouble, PowerCut):
            return False
        cabinet = self.site.stations[fault.station].controller if fault.station else None
        dark = other.controller is None or other.controller == cabinet
        return dark and other.trouble.at <= fault.shows <= other.trouble.ended + APART_S

    def _fault(self) -> Fault | None:
        kinds = (
            self._break_at_station, self._break_at_supply, self._small_break, self._leak, self._small_leak,
            self._stuck_open, self._dead_valve, self._clogged, self._stuck_meter, self._silence, self._controller_cut,
            self._site_cut,
        )  # fmt: skip
        return self.chance.choices(kinds, (4, 3, 2, 4, 2, 3, 3, 2, 2, 2, 2, 1))[0]()

    def _during(self) -> tuple[Run, int]:
        """A run, and an instant in it that leaves time enough."""
        run = self.chance.choice([run for run in self.sheet.runs if run.end - run.start > WHOLE_S + 60])
        return run, self.chance.randrange(run.start, run.end - WHOLE_S)

    def draw_about(self, supply: str, at: int) -> float:
        """The most a supply draws from an instant on until a break there should have been found."""
        edges = [start for start, _ in next(draw.steps for draw in self.sheet.draws if draw.supply == supply)]
        return max(self.draw_at(supply, then) for then in (at, *(one for one in edges if at < one <= at + SEEN_S)))

    def draw_at(self, supply: str, at: int) -> float:
        steps = next(draw.steps for draw in self.sheet.draws if draw.supply == supply)
        return max((step for step in steps if step[0] <= at), default=(0, 0.0))[1]

    def _break_at_station(self) -> Fault:
        run, at = self._during()
        size = self.draw_about(run.supply, at) * self.chance.uniform(0.2, 1.0)
        return Fault(
            "break at a station", Break(at=at, station=run.station, flow_lpm=size), at, run.station, run.supply
        )

    def _break_at_supply(self) -> Fault:
        run, at = self._during()
        supply = self.chance.choice(path_of(self.site, run.supply))
        size = self.draw_about(supply, at) * self.chance.uniform(0.2, 0.8)
        return Fault("break in a pipe", Break(at=at, supply=supply, flow_lpm=size), at, supply=supply)

    def _small_break(self) -> Fault:
        run, at = self._during()
        size = self.draw_about(run.supply, at) * self.chance.uniform(0.08, 0.2)
        trouble = Break(at=at, station=run.station, flow_lpm=size)
        return Fault("break of 8 to 20 %", trouble, at, run.station, run.supply)

    def _leak(self) -> Fault:
        return self._leak_of("leak of 5 L/min and more", 5, 25)

    def _small_leak(self) -> Fault:
        return self._leak_of("leak of 1 to 5 L/min", 1, 5)

    def _leak_of(self, row: str, least: float, most: float) -> Fault:
        supply = self.chance.choice(sorted(self.site.supplies))
        at = self.chance.randrange(self.sheet.starts + 3600, self.sheet.ends - 7200)
        leak = Leak(at=at, supply=supply, flow_lpm=self.chance.uniform(least, most))
        return Fault(row, leak, self._idle_from(supply, at), supply=supply)

    def _idle_from(self, supply: str, at: int) -> int:
        """The first instant from `at` on with nothing open below a supply."""
        for start, flow in next(draw.steps for draw in self.sheet.draws if draw.supply == supply):
            if start >= at and self.draw_at(supply, at) > 0 and flow == 0:
                return start
        return at

    def _stuck_open(self) -> Fault:
        run, at = self._during()
        return Fault("valve stuck open", StuckOpen(at=at, station=run.station), run.end, run.station, run.supply)

    def _dead_valve(self) -> Fault:
        run, _ = self._during()
        dead = DeadValve(at=run.start - 60, station=run.station)
        return Fault("dead valve", dead, run.start, run.station, run.supply)

    def _clogged(self) -> Fault:
        run, at = self._during()
        supply = self.chance.choice(path_of(self.site, run.supply))
        clogged = Clogged(
            at=at, supply=supply, loss_pct=self.chance.uniform(20, 60), over_s=self.chance.randrange(600, 7200)
        )
        return Fault("clogged filter", clogged, at, supply=supply)

    def _stuck_meter(self) -> Fault:
        run, at = self._during()
        supply = self.chance.choice(path_of(self.site, run.supply))
        return Fault("stuck meter", StuckMeter(at=at, supply=supply), at, supply=supply)

    def _silence(self) -> Fault | None:
        run, at = self._during()
        if run.controller is None:
            return None
        silent = Silence(at=at, until=at + self.chance.randrange(3600, 4 * 3600), controller=run.controller)
        return Fault("silent controller", silent, at, controller=run.controller)

    def _controller_cut(self) -> Fault | None:
        run, at = self._during()
        if run.controller is None:
            return None
        cut = PowerCut(at=at, until=at + self.chance.randrange(1800, 3 * 3600), controller=run.controller)
        return Fault("power cut at a cabinet", cut, at, controller=run.controller)

    def _site_cut(self) -> Fault:
        _, at = self._during()
        return Fault("power cut of the site", PowerCut(at=at, until=at + self.chance.randrange(1800, 2 * 3600)), at)
