"""From a site's document to tonight's problem: forgiving, and with every shortfall that is known beforehand.

Everything is put in order of ids, never of the document: the same records give the same night, in whatever order
a file, a database or a phone holds them.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass

from ..clock.nights import Night
from ..clock.sun import place_of
from ..clock.zones import SiteClock
from ..document.document import Document
from ..message import Message
from .beforehand import alone, fitting
from .calendars import Calendar, Calendars
from .closed import closed_spans
from .dues import Due, dues
from .notices import Known, notices
from .notices_clock import clock_notices
from .problem import Cabinet, Chain, Problem, ProgramLimit, Span, SupplyNode
from .sheet import ClosedSpan, Shortfall
from .shortfalls import shortfall, volume_of
from .tonight import Tonight
from .water import millilitres_per_minute


@dataclass(frozen=True, slots=True)
class Built:
    """A night ready to be solved, and what is known already. `dues` and `calendars` stand beside `problem.chains`.

    A chain may have fewer cycles than its due: those that cannot run even alone are among the `shortfalls`.
    """

    tonight: Tonight
    problem: Problem
    dues: tuple[Due, ...]
    calendars: tuple[Calendar, ...]
    notices: tuple[Message, ...]
    shortfalls: tuple[Shortfall, ...]
    closed: tuple[ClosedSpan, ...]
    due_ml: int
    """All that is due tonight, whether it can run or not, in millilitres."""


def build(document: Document, night: Night, clock: SiteClock, ran: Container[str] = ()) -> Built:
    """Tonight's problem. Raises nothing for a valid document: what cannot be done is a shortfall or a notice.

    `ran` are the keys of turns of which some ran already: they keep all their cycles, whether those still fit or not.
    """
    tonight = Tonight(document, night, clock, place_of(document.site))
    calendars = Calendars(tonight)
    found = dues(tonight)
    theirs = [calendars.of(due) for due in found]
    told = (*clock_notices(tonight), *notices(Known(tonight, found, theirs)))
    placed: list[tuple[Due, Calendar, int]] = []
    short: list[Shortfall] = []
    for due, calendar in zip(found, theirs, strict=True):
        fit, why = len(due.cycles), None
        if due.cycles and due.key not in ran:
            fit, why = fitting(alone(tonight, due, calendar))
        if why is not None:
            short.append(shortfall(due, fit, why))
        if fit:
            placed.append((due, calendar, fit))
    return Built(
        tonight=tonight,
        problem=_problem(tonight, placed),
        dues=tuple(due for due, _, _ in placed),
        calendars=tuple(calendar for _, calendar, _ in placed),
        notices=told,
        shortfalls=tuple(short),
        closed=closed_spans(calendars),
        due_ml=sum(volume_of(due, due.cycles) for due in found),
    )


def _problem(tonight: Tonight, placed: list[tuple[Due, Calendar, int]]) -> Problem:
    document = tonight.document
    stations = tuple(sorted(document.stations))
    groups = tuple(sorted({due.group for due, _, _ in placed}))
    spans = tuple(dict.fromkeys(calendar.spans for _, calendar, _ in placed))
    numbers = _Numbers(
        {key: index for index, key in enumerate(sorted(document.supplies))},
        {key: index for index, key in enumerate(sorted(document.controllers))},
        {key: index for index, key in enumerate(stations)},
        {key: index for index, key in enumerate(groups)},
        {key: index for index, key in enumerate(spans)},
    )
    return Problem(
        length=tonight.length,
        supplies=_supplies(document, numbers),
        controllers=_cabinets(document),
        programs=tuple(_program_limit(document, program) for program, _ in groups),
        stations=stations,
        chains=tuple(_chain(due, calendar, fit, numbers) for due, calendar, fit in placed),
        calendars=spans,
        apart=_apart(document, numbers),
    )


@dataclass(frozen=True, slots=True)
class _Numbers:
    """The index of every key."""

    supplies: dict[str, int]
    controllers: dict[str, int]
    stations: dict[str, int]
    groups: dict[tuple[str, str], int]
    calendars: dict[tuple[Span, ...], int]


def _supplies(document: Document, numbers: _Numbers) -> tuple[SupplyNode, ...]:
    return tuple(
        SupplyNode(
            key=key,
            parent=None if supply.fed_by is None else numbers.supplies[supply.fed_by],
            limit=_flow(supply.limit_lpm),
            steady=_flow(supply.steady_lpm),
            least=_flow(supply.least_lpm),
        )
        for key, supply in sorted(document.supplies.items())
    )


def _flow(flow_lpm: float | None) -> int | None:
    return None if flow_lpm is None else millilitres_per_minute(flow_lpm)


def _cabinets(document: Document) -> tuple[Cabinet, ...]:
    return tuple(
        Cabinet(key, controller.max_open, controller.max_current_ma, controller.valve_gap_s)
        for key, controller in sorted(document.controllers.items())
    )


def _program_limit(document: Document, program: str) -> ProgramLimit:
    """A program's own limits; of none, key and limits are empty: runs asked for of single stations."""
    if not program:
        return ProgramLimit("")
    record = document.programs[program]
    return ProgramLimit(program, _flow(record.limit_lpm), record.max_open, record.order == "listed")


def _chain(due: Due, calendar: Calendar, fit: int, numbers: _Numbers) -> Chain:
    station = due.station
    return Chain(
        key=due.key,
        station=numbers.stations[station.id],
        supply=numbers.supplies[station.supply],
        controller=None if station.controller is None else numbers.controllers[station.controller],
        program=numbers.groups[due.group],
        flow=millilitres_per_minute(station.flow_lpm),
        current=station.current_ma or 0,
        cycles=due.cycles[:fit],
        soak=due.soak,
        rank=due.rank,
        release=due.release,
        deadline=due.deadline,
        calendar=numbers.calendars[calendar.spans],
        late=due.late,
        fixed=due.fixed,
    )


def _apart(document: Document, numbers: _Numbers) -> tuple[frozenset[int], ...]:
    others: list[set[int]] = [set() for _ in numbers.stations]
    for pair in document.apart.values():
        one, other = numbers.stations[pair.station], numbers.stations[pair.other]
        if one != other:
            others[one].add(other)
            others[other].add(one)
    return tuple(frozenset(each) for each in others)
