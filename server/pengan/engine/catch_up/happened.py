"""What really ran of a night sheet until now: from the journal, from openings, or as the sheet had it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass

from ..document.document import Document
from ..journal.entry import Entry, Kind
from ..journal.openings import Opening, openings
from ..journal.outages import FOREVER, Outages, outages
from ..plan.problem import Span
from ..plan.sheet import NightSheet, Run
from ..plan.spans import common, rest_of

NEAR_S = 30 * 60
"""An opening that overlaps no run of its station belongs to the nearest one within so long. Common practice."""
NO_OUTAGES = Outages({}, {}, ())


@dataclass(frozen=True, slots=True)
class Ran:
    """A stretch in which a turn's valve was open and water came; instants. `run` is the planned run that it was.

    `going`: the valve is open now, so that `end` is now.
    """

    turn: str
    start: int
    end: int
    run: Span
    going: bool = False


@dataclass(frozen=True, slots=True)
class Happened:
    """The night so far. `strangers` are openings that belong to no run of the sheet."""

    ran: tuple[Ran, ...]
    outages: Outages = NO_OUTAGES
    strangers: tuple[Opening, ...] = ()


def as_planned(sheet: NightSheet, now: int) -> Happened:
    """The sheet's word for it: every run began when planned, and those not over yet are open."""
    begun = (run for run in sheet.runs if run.start < now)
    return Happened(
        tuple(Ran(run.turn, run.start, min(run.end, now), (run.start, run.end), run.end > now) for run in begun)
    )


def as_told(
    document: Document,
    sheet: NightSheet,
    opened: Iterable[Opening],
    interrupted: Outages,
    now: int,
    unheard: Container[tuple[str, int]] = (),
) -> Happened:
    """By what the valves did, less the time in which no water could come. Outages may reach beyond now.

    `unheard` are runs (turn and cycle) of which nobody would have told: they count as run as planned.
    """
    runs: dict[str, list[Run]] = defaultdict(list)
    for run in sheet.runs:
        if run.station in document.stations:
            runs[run.station].append(run)
    found: list[Ran] = []
    strangers: list[Opening] = []
    told: set[tuple[str, int]] = set()
    for one in sorted(opened, key=lambda one: (one.start, one.station)):
        nearest = _nearest(one, runs.get(one.station, ()))
        if one.start >= now:
            continue
        if nearest is None:
            strangers.append(one)
        else:
            told.add((nearest.turn, nearest.cycle))
            found.extend(_wet(document, nearest, (one.start, one.end), interrupted, now))
    for run in (run for mine in runs.values() for run in mine if run.start < now):
        if (run.turn, run.cycle) in unheard and (run.turn, run.cycle) not in told:
            found.extend(_wet(document, run, (run.start, run.end), interrupted, now))
    return Happened(tuple(sorted(found, key=lambda ran: (ran.start, ran.turn))), interrupted, tuple(strangers))


def from_journal(document: Document, sheet: NightSheet, entries: Sequence[Entry], now: int) -> Happened:
    """By the journal's entries. Those after now tell of outages to come, such as the hour at which power is promised.

    A run of whose valve nothing was told, and whose controller was silent while it was due, counts as run as planned.
    """
    past = [entry for entry in entries if entry.at <= now]
    voices = _voices(document, past)
    unheard = {(run.turn, run.cycle) for run in sheet.runs if not _heard(run, voices, now)}
    return as_told(document, sheet, openings(document, past, sheet), outages(document, entries), now, unheard)


def _wet(document: Document, run: Run, span: tuple[int, int | None], interrupted: Outages, now: int) -> Iterable[Ran]:
    """The stretches of an opening in which water came. It is going where nothing has ended the last one."""
    start, end = span
    ended = FOREVER if end is None else end
    dry = interrupted.of_station(document, run.station)
    for first, last in common([(start, min(ended, now))], rest_of(dry, FOREVER)):
        going = last == now < ended and not any(a <= now < b for a, b in dry)
        yield Ran(run.turn, first, last, (run.start, run.end), going)


def _nearest(opening: Opening, runs: Sequence[Run]) -> Run | None:
    """The run that it overlaps most, else the nearest; None if none is near."""
    best = min(runs, key=lambda run: (_apart(opening, run), run.start), default=None)
    return best if best is not None and _apart(opening, best) <= NEAR_S else None


def _apart(opening: Opening, run: Run) -> int:
    """Seconds between the two; less than 0 by how much they overlap."""
    return max(opening.start, run.start) - min(FOREVER if opening.end is None else opening.end, run.end)


def _voices(document: Document, told: Iterable[Entry]) -> Mapping[str, list[int]]:
    """The instants at which each station and each controller said something of its valves or itself."""
    voices: dict[str, list[int]] = defaultdict(list)
    for entry in told:
        station = document.stations.get(entry.station or "")
        if entry.kind in (Kind.OPENED, Kind.CLOSED) and station is not None:
            for name in (station.id, station.controller):
                voices[name or ""].append(entry.at)
        elif entry.kind is Kind.ALIVE and entry.controller:
            voices[entry.controller].append(entry.at)
    return voices


def _heard(run: Run, voices: Mapping[str, Sequence[int]], now: int) -> bool:
    names = (name for name in (run.station, run.controller) if name)
    return any(run.start <= at <= min(run.end, now) for name in names for at in voices.get(name, ()))
