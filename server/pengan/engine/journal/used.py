"""What a night that is over used: planned, delivered and lost water by supply, program and hydrozone, and its meters.

Every run counts in exactly one row, so that sums by supply, by program, by hydrozone and by night are the same water.
For each row planned = delivered + assumed + lost holds to the millilitre; what came beyond the plan stands apart.
Volumes are whole millilitres, instants whole seconds.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import NamedTuple

from ..catch_up.lost import NO_POWER, NO_SITE_POWER, NO_TIME_LEFT, SHUT, STOPPED, UNOPENED
from ..document.document import Document
from ..message import Message, saying
from ..plan.sheet import NightSheet, Shortfall
from .closings import with_closings
from .counts import Counted, Reading, counted, readings_of
from .delivered import Delivered, Extra, Lost, NightDelivered, delivered
from .entry import Entry
from .in_order import in_order
from .openings import doubts, openings
from .outages import Outages, outages, path_of

MOST_DOUBTS = 50
"""Of one night: whoever has more of them has a silent controller, and its alarm says so."""

BY_LEARNED_FLOWS = saying(
    "used.by_learned_flows",
    "Night of {night_date}: of the {stations} stations that ran, {learned} went by the flow learned from their meter, "
    "the others by the flow stated for them.",
)


class Where(NamedTuple):
    """Where water belongs. Empty: asked for outside programs, or a station without a hydrozone."""

    supply: str
    program: str
    hydrozone: str


@dataclass(frozen=True, slots=True)
class Water:
    """Amounts of one row or of a sum of rows.

    `delivered_ml` is what is known to have come of what was planned, `assumed_ml` what counts as come since nobody
    told anything of its valves, `beyond_ml` what came besides the plan: runs that went on, and openings of no run.
    """

    planned_ml: int = 0
    delivered_ml: int = 0
    assumed_ml: int = 0
    beyond_ml: int = 0
    lost: Mapping[Lost, int] = field(default_factory=dict)

    @property
    def lost_ml(self) -> int:
        return sum(self.lost.values())

    @property
    def came_ml(self) -> int:
        """All that came, as far as anybody knows."""
        return self.delivered_ml + self.assumed_ml + self.beyond_ml

    def __add__(self, other: Water) -> Water:
        lost = {why: self.lost.get(why, 0) + other.lost.get(why, 0) for why in {**self.lost, **other.lost}}
        return Water(
            self.planned_ml + other.planned_ml, self.delivered_ml + other.delivered_ml,
            self.assumed_ml + other.assumed_ml, self.beyond_ml + other.beyond_ml, lost,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class MeterNight:
    """One supply's meter in a night: its first and last readings, and what came between, by meter and by valves.

    `came_ml` is what stations below it got between the two readings, without steps that are not known; `before_ml`
    and `after_ml` what they got in the night before the first and after the last.
    """

    first: Reading
    last: Reading
    counted_ml: int
    came_ml: int
    before_ml: int
    after_ml: int
    says: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class NightUsed:
    """A whole night. `is_told`: whether anything was told of any of its valves."""

    night: str
    rows: Mapping[Where, Water]
    meters: Mapping[str, MeterNight]
    is_told: bool
    says: tuple[Message, ...] = ()


class Piece(NamedTuple):
    """Water that came to a station of this supply, spread evenly over a span."""

    supply: str
    start: int
    end: int
    ml: int


def night_used(
    document: Document,
    sheet: NightSheet,
    entries: Iterable[Entry],
    counters_ml: Mapping[str, int] | None = None,
    flows: Mapping[str, float] | None = None,
) -> NightUsed:
    """Reckon up a night that is over, from its last sheet and all that its journal tells.

    `counters_ml` is where supplies' counters begin again, `flows` are learned flows in L/min; where some station went
    by one, the first of what the night says is `BY_LEARNED_FLOWS`. What was planned stays by the document's flow: less
    by the learned one is lost to a low flow, more is beyond the plan. The document has to know the sheet's stations.
    Outages that began before the night have to be among the entries.
    """
    told, closings = with_closings(document, sheet, in_order(entries))
    night = delivered(document, sheet, told, sheet.ends, flows)
    rows: dict[Where, Water] = defaultdict(Water)
    for run in night.runs:
        rows[_where(document, run.run.station, run.run.supply, run.run.program)] += _of_run(run)
    for extra in night.extras:
        station = document.stations[extra.opening.station]
        rows[_where(document, station.id, station.supply, None)] += Water(beyond_ml=_ml(extra.delivered_l))
    for short, why in missed(document, sheet, told):
        volume = _ml(short.volume_l)
        rows[_where(document, short.station, short.supply, short.program)] += Water(volume, lost={why: volume})
    said = (*_by_learned(sheet, night, flows or {}), *closings, *doubts(openings(document, told, sheet)))
    meters = _meters(document, told, list(_pieces(document, night.runs, night.extras)), sheet, counters_ml or {})
    is_told = any(run.told for run in night.runs) or bool(night.extras)
    return NightUsed(sheet.night, dict(rows), meters, is_told, tuple(islice(said, MOST_DOUBTS)))


def _by_learned(sheet: NightSheet, night: NightDelivered, flows: Mapping[str, float]) -> Iterator[Message]:
    ran = {one.run.station for one in night.runs} | {extra.opening.station for extra in night.extras}
    if learned := ran & flows.keys():
        yield BY_LEARNED_FLOWS(night_date=sheet.night, learned=len(learned), stations=len(ran))


def _where(document: Document, station: str, supply: str, program: str | None) -> Where:
    return Where(supply, program or "", document.stations[station].hydrozone or "")


def _ml(volume_l: float) -> int:
    return round(volume_l * 1000)


def _of_run(one: Delivered) -> Water:
    """A run's row. What it lacks of its plan is spread over the reasons, the strongest first; a lack that no reason
    explains is a flow less than the document's."""
    planned, came = _ml(one.run.volume_l), _ml(one.delivered_l)
    missing = max(0, planned - came)
    lost: dict[Lost, int] = {}
    for loss in one.lost:
        if (part := min(missing, _ml(loss.volume_l))) > 0:
            lost[loss.why] = lost.get(loss.why, 0) + part
            missing -= part
    if missing:
        last = next(reversed(lost), Lost.LOW_FLOW) if missing <= len(one.lost) else Lost.LOW_FLOW
        lost[last] = lost.get(last, 0) + missing
    within, beyond = min(planned, came), max(0, came - planned)
    if one.told:
        return Water(planned, within, 0, beyond, lost)
    return Water(planned, 0, within, beyond, lost)


def missed(document: Document, sheet: NightSheet, told: Iterable[Entry]) -> Iterator[tuple[Shortfall, Lost]]:
    """What an interruption took of the plan for good, where the rest of the night was worked out anew.

    Such a sheet has as runs what ran, and what was missed as shortfalls. Other shortfalls were never planned.
    """
    why = outages(document, told)
    for short in sheet.shortfalls:
        reason = _MISSED.get(short.why.code)
        if short.why.code == NO_TIME_LEFT.code:
            reason = _interrupted(document, short, why)
        if reason is not None:
            yield short, reason


_MISSED = {
    NO_POWER.code: Lost.POWER,
    NO_SITE_POWER.code: Lost.POWER,
    SHUT.code: Lost.SHUT,
    STOPPED.code: Lost.STOPPED,
    UNOPENED.code: Lost.NOT_OPENED,
}


def _interrupted(document: Document, short: Shortfall, why: Outages) -> Lost:
    """What kept a station from its water before there was no time left for it: the first that holds."""
    spans = (
        (Lost.POWER, why.power.get(document.stations[short.station].controller, ())),
        (Lost.SHUT, why.shut.get(short.supply, ())),
        (Lost.STOPPED, why.stopped),
    )
    return next((reason for reason, found in spans if found), Lost.NOT_OPENED)


def _pieces(document: Document, runs: Iterable[Delivered], extras: Iterable[Extra]) -> Iterator[Piece]:
    for one in runs:
        yield Piece(one.run.supply, one.run.start, one.run.end, _ml(one.delivered_l))
    for extra in extras:
        opening = extra.opening
        end = opening.start + extra.delivered_s if opening.end is None else opening.end
        yield Piece(document.stations[opening.station].supply, opening.start, end, _ml(extra.delivered_l))


def _meters(
    document: Document, told: Sequence[Entry], pieces: Sequence[Piece], sheet: NightSheet, ends: Mapping[str, int]
) -> dict[str, MeterNight]:
    """The night of every supply whose counter was read."""
    inside = [one for one in told if sheet.starts <= one.at < sheet.ends]
    below = {supply: [one for one in pieces if supply in path_of(document, one.supply)] for supply in document.supplies}
    found: dict[str, MeterNight] = {}
    for supply in sorted({one.supply for one in inside if one.supply in below}):
        read = counted(supply, readings_of(inside, supply), ends.get(supply))
        if read.readings:
            found[supply] = _meter_night(read, below[supply], sheet)
    return found


def _meter_night(read: Counted, below: Sequence[Piece], sheet: NightSheet) -> MeterNight:
    first, last = read.readings[0], read.readings[-1]
    before, whole = came_between(below, sheet.starts, first.at), sum(one.ml for one in below)
    within = came_between(below, first.at, last.at)
    unknown = sum(came_between(below, step.start, step.end) for step in read.steps if step.ml is None)
    return MeterNight(first, last, read.ml, within - unknown, before, whole - before - within, tuple(read.says()))


def came_between(pieces: Iterable[Piece], start: int, end: int) -> int:
    """What came within a span, each piece's water taken as spread evenly."""
    return sum(_share(one, start, end) for one in pieces)


def _share(one: Piece, start: int, end: int) -> int:
    overlap = min(one.end, end) - max(one.start, start)
    if overlap <= 0 or one.end <= one.start:
        return 0
    return one.ml * overlap // (one.end - one.start)
