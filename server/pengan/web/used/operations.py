"""What was used within some nights, for those who may read the site: put together out of the nights written down."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import fsum
from typing import Any, Literal

from sqlalchemy import Row, func, select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at, night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.counts import Reading
from pengan.engine.journal.delivered import Lost
from pengan.engine.journal.outages import path_of
from pengan.engine.journal.unaccounted import MeterSum, meter_sum, topmost
from pengan.engine.journal.used import BY_LEARNED_FLOWS, MeterNight, Water
from pengan.engine.message import Message, saying
from pengan.engine.need.site.budget import budget
from pengan.words.names import SiteNames
from pengan.words.wall import SiteWall

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem
from ..sites.operations import document_in
from .faults import FaultUsed, cost_of, faults_between
from .models import UsedMeter, UsedNight, UsedWater
from .reckoning import counters_ml

By = Literal["supply", "program", "hydrozone", "month"]
LONGEST_DAYS = 3660
MOST_SAID = 100
ALL = ""
"""The key of a line for the whole site."""

wrong_span = saying(
    "used.wrong_span", "{first_date} to {last_date} is no span of nights: it begins after it ends, or is too long."
)

flows_learned = saying(
    "used.flows_learned",
    "Nights in which stations went by the flow learned from their meter: {nights}. In the last of them, {last_date}, "
    "{learned} of the {stations} stations that ran; the others went by the flow stated for them.",
)

_AMOUNTS = (UsedWater.planned_ml, UsedWater.delivered_ml, UsedWater.assumed_ml, UsedWater.beyond_ml)
_LOST = {why: getattr(UsedWater, f"{why.value}_ml") for why in Lost}


@dataclass(frozen=True, slots=True)
class UsedLine:
    """One supply, program, hydrozone or month, or the whole (`ALL`).

    `before_l` is what came in the same nights a year before, None where none of them is known; `allowed_l` the budget
    of the months, None where none is stated.
    """

    key: str
    water: Water
    before_l: float | None = None
    allowed_l: float | None = None


@dataclass(frozen=True, slots=True)
class Used:
    """Some nights put together. `nights` counts those that were reckoned up, `told` those anything was told of.

    `unaccounted_ml` sums the topmost meters, None without any.
    """

    first: date
    last: date
    by: By
    lines: tuple[UsedLine, ...]
    total: UsedLine
    nights: int
    told: int
    meters: tuple[MeterSum, ...]
    unaccounted_ml: int | None
    faults: tuple[FaultUsed, ...]
    said: tuple[Message, ...]
    currency: str | None
    document: Document
    names: SiteNames


def used_for(
    session: Session, actor: Actor | None, site: str, first: date | None, last: date | None, by: By, now: Instant
) -> Used:
    """What was used from one night to another; without them, since the year began. Raises `Problem`."""
    with reading(session):
        require(session, actor, site, "read")
        return used_in(session, site, first, last, by, now)


def used_in(session: Session, site: str, first: date | None, last: date | None, by: By, now: Instant) -> Used:
    """The same for whoever has the server itself, inside a transaction that reads. Raises `Problem`."""
    document = document_in(session, site).document
    clock = clock_of(document.site)
    last_night = night_at(clock, now).date - timedelta(days=1)
    last = last or max(last_night, first or last_night)
    first = first or date(last.year, 1, 1)
    if not timedelta(0) <= last - first <= timedelta(days=LONGEST_DAYS):
        raise Problem(422, wrong_span(first_date=first.isoformat(), last_date=last.isoformat()))
    years = _Years(session, site, document, first, last)
    faults = faults_between(session, site, clock, first, last, now)
    meters = _meters(session, site, document, first, last)
    nights = list(session.execute(_nights(site, first, last)))
    names = SiteNames(document, SiteWall(clock, night_on(clock, first).starts, night_on(clock, last).ends))
    costs = [replace(one, cost=cost_of(document, one, years.by_month_l(faults))) for one in faults]
    learned, said = _apart(message for row in nights for message in _messages(row.said))
    return Used(
        first, last, by, years.lines(by), years.total(), len(nights), sum(row.told for row in nights), meters,
        _unaccounted(document, meters), tuple(costs), (*learned, *said[-MOST_SAID:]), document.site.currency or None,
        document, names,
    )  # fmt: skip


class _Years:
    """The water of the nights that are asked for, and of the same a year before."""

    def __init__(self, session: Session, site: str, document: Document, first: date, last: date) -> None:
        self.document, self.first, self.last = document, first, last
        self.rows = list(session.execute(_sums(site, first, last)))
        self.before = list(session.execute(_sums(site, a_year_before(first), a_year_before(last))))

    def lines(self, by: By) -> tuple[UsedLine, ...]:
        came, before = _grouped(self.rows, by), _grouped(self.before, by, a_year_later=True)
        allowed = self._allowed(by)
        keys = sorted({*came, *before} | ({*allowed} if by == "month" else set()))
        return tuple(
            UsedLine(
                key, came.get(key, Water()), before[key].came_ml / 1000 if key in before else None, allowed.get(key)
            )
            for key in keys
        )

    def total(self) -> UsedLine:
        whole = sum((_water(row) for row in self.rows), Water())
        before = sum(_water(row).came_ml for row in self.before) / 1000 if self.before else None
        allowed = self._allowed("month")
        return UsedLine(ALL, whole, before, fsum(allowed.values()) if allowed else None)

    def by_month_l(self, faults: Iterable[FaultUsed]) -> Mapping[str, float]:
        """Each month's whole water: what came to stations, and what escaped."""
        whole: dict[str, float] = defaultdict(float)
        for month, water in _grouped(self.rows, "month").items():
            whole[month] += water.came_ml / 1000
        for fault in faults:
            for month, escaped in fault.by_month.items():
                whole[month] += escaped
        return whole

    def _allowed(self, by: By) -> dict[str, float]:
        """The budget of all months that the nights touch, whole months each, by month or hydrozone."""
        if by not in ("month", "hydrozone") or not self.document.site.allowance_pct:
            return {}
        months = (self.first.isoformat()[:7], self.last.isoformat()[:7])
        allowed: dict[str, float] = defaultdict(float)
        for year in range(self.first.year, self.last.year + 1):
            for line in budget(self.document, year, {}):
                if months[0] <= line.month <= months[1]:
                    allowed[line.month if by == "month" else line.hydrozone] += line.allowed_l
        return dict(allowed)


def a_year_before(day: date) -> date:
    """The same date a year before; the 28th of February for the 29th."""
    return day.replace(year=day.year - 1, day=28) if (day.month, day.day) == (2, 29) else day.replace(year=day.year - 1)


def _sums(site: str, first: date, last: date) -> Any:
    """The water of a month's nights, of each supply, program and hydrozone."""
    month = func.substr(UsedWater.night, 1, 7)
    keys = (month.label("month"), UsedWater.supply, UsedWater.program, UsedWater.hydrozone)
    sums = [func.sum(column).label(column.key) for column in (*_AMOUNTS, *_LOST.values())]
    span = UsedWater.night.between(first.isoformat(), last.isoformat())
    return select(*keys, *sums).where(UsedWater.site == site, span).group_by(*keys)


def _grouped(rows: Iterable[Row[Any]], by: By, a_year_later: bool = False) -> dict[str, Water]:
    found: dict[str, Water] = defaultdict(Water)
    for row in rows:
        key = getattr(row, by)
        if a_year_later and by == "month":
            key = f"{int(key[:4]) + 1:04d}{key[4:]}"
        found[key] += _water(row)
    return dict(found)


def _water(row: Row[Any]) -> Water:
    """Sums of PostgreSQL are decimals."""
    lost = {why: int(getattr(row, column.key)) for why, column in _LOST.items()}
    planned, delivered, assumed, beyond = (int(getattr(row, column.key)) for column in _AMOUNTS)
    return Water(planned, delivered, assumed, beyond, {why: ml for why, ml in lost.items() if ml})


def _nights(site: str, first: date, last: date) -> Any:
    wanted = select(UsedNight.night, UsedNight.told, UsedNight.said).where(UsedNight.site == site)
    return wanted.where(UsedNight.night.between(first.isoformat(), last.isoformat())).order_by(UsedNight.night)


def _meters(session: Session, site: str, document: Document, first: date, last: date) -> tuple[MeterSum, ...]:
    wanted = (
        select(UsedMeter)
        .where(UsedMeter.site == site, UsedMeter.night.between(first.isoformat(), last.isoformat()))
        .order_by(UsedMeter.night)
    )
    nights: dict[str, list[tuple[date, MeterNight]]] = defaultdict(list)
    for row in session.scalars(wanted):
        if row.supply in document.supplies:
            nights[row.supply].append((date.fromisoformat(row.night), _meter_night(row)))
    if not nights:
        return ()
    through, ends = _through(session, site, document, first, last), counters_ml(document)
    sums = (meter_sum(supply, nights[supply], through[supply], ends.get(supply)) for supply in sorted(nights))
    return tuple(one for one in sums if one is not None)


def _through(session: Session, site: str, document: Document, first: date, last: date) -> dict[str, dict[date, int]]:
    """What came through each supply in each night that was reckoned up."""
    known = [date.fromisoformat(row.night) for row in session.execute(_nights(site, first, last))]
    through = {supply: dict.fromkeys(known, 0) for supply in document.supplies}
    came = func.sum(UsedWater.delivered_ml + UsedWater.assumed_ml + UsedWater.beyond_ml)
    span = UsedWater.night.between(first.isoformat(), last.isoformat())
    rows = select(UsedWater.night, UsedWater.supply, came.label("came")).where(UsedWater.site == site, span)
    for row in session.execute(rows.group_by(UsedWater.night, UsedWater.supply)):
        for supply in path_of(document, row.supply) if row.supply in document.supplies else ():
            through[supply][date.fromisoformat(row.night)] += int(row.came)
    return through


def _meter_night(row: UsedMeter) -> MeterNight:
    first, last = Reading(row.first_at, row.first_ml, row.first_is_new), Reading(row.last_at, row.last_ml)
    said = tuple(_messages(row.said))
    return MeterNight(first, last, row.counted_ml, row.came_ml, row.before_ml, row.after_ml, said)


def _unaccounted(document: Document, meters: Iterable[MeterSum]) -> int | None:
    """Of the topmost meters, so that nothing counts twice."""
    sums = {one.supply: one.unaccounted_ml for one in meters}
    return sum(sums[supply] for supply in topmost(document, sums)) if sums else None


def _apart(said: Iterable[Message]) -> tuple[list[Message], list[Message]]:
    """How many nights went by learned flows, in one sentence where any did; and all else that nights say."""
    learned, others = list[Message](), list[Message]()
    for message in said:
        (learned if message.code == BY_LEARNED_FLOWS.code else others).append(message)
    if not learned:
        return [], others
    last = learned[-1].params
    told = flows_learned(
        nights=len(learned), last_date=last["night_date"], learned=last["learned"], stations=last["stations"]
    )
    return [told], others


def _messages(text: str) -> list[Message]:
    return [Message(one["code"], one["params"]) for one in json.loads(text)]
