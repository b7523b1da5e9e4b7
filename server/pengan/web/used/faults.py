"""What each fault cost: the water of its alarm, and that water's price."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.journal.finding import EXCESS, Noticed
from pengan.engine.message import Message
from pengan.engine.need.site.budget import month_bill

from ..alarms.models import Alarm

KEPT_BACK = (Noticed.TOO_LITTLE, Noticed.POWER)


@dataclass(frozen=True, slots=True)
class FaultUsed:
    """One alarm within the nights that are asked for.

    `escaped_l` ran away, `kept_l` never came to the plants: one of them is nothing. Both are about, its size times
    its time. `by_month` spreads what escaped. `cost` is None where no price is stated, or nothing escaped.
    """

    alarm: str
    kind: str
    supply: str | None
    controller: str | None
    since: int
    until: int | None
    escaped_l: float
    kept_l: float
    said: Message
    by_month: Mapping[str, float]
    cost: Decimal | None = None


def faults_between(session: Session, site: str, clock: SiteClock, first: date, last: date, now: int) -> list[FaultUsed]:
    """The alarms of these nights that cost water, the latest first. Belongs to the caller's transaction."""
    wanted = (
        select(Alarm)
        .where(Alarm.site == site, Alarm.night <= last.isoformat(), Alarm.last_night >= first.isoformat())
        .where(Alarm.kind.in_([kind.value for kind in (*EXCESS, *KEPT_BACK)]))
        .order_by(Alarm.opened_at.desc(), Alarm.id)
    )
    found = (_fault(alarm, clock, first, last, now) for alarm in session.scalars(wanted))
    return [one for one in found if one is not None and (one.escaped_l or one.kept_l)]


def _fault(alarm: Alarm, clock: SiteClock, first: date, last: date, now: int) -> FaultUsed | None:
    spells = list(_spells(alarm, clock, first, last, now))
    if not spells:
        return None
    months: dict[str, float] = {}
    for night, start, end in spells:
        months[night[:7]] = months.get(night[:7], 0.0) + alarm.size_lpm * (end - start) / 60
    total, is_excess = round(sum(months.values()), 1), Noticed(alarm.kind) in EXCESS
    said = json.loads(alarm.said)
    return FaultUsed(
        alarm.id, alarm.kind, alarm.supply, alarm.controller, spells[0][1], alarm.ended_at,
        total if is_excess else 0.0, 0.0 if is_excess else total, Message(said["code"], said["params"]),
        months if is_excess else {},
    )  # fmt: skip


def _spells(alarm: Alarm, clock: SiteClock, first: date, last: date, now: int) -> Iterator[tuple[str, int, int]]:
    """Night, start and end of each spell. One without an end lasted as long as the alarm and its night, or until now:
    what goes on in the next night is a spell of that one."""
    until = now if alarm.ended_at is None else min(now, alarm.ended_at)
    for night, spells in sorted(json.loads(alarm.spells).items()):
        if not first.isoformat() <= night <= last.isoformat():
            continue
        ends = min(until, night_on(clock, date.fromisoformat(night)).ends)
        for start, _noticed, end in spells:
            yield night, start, max(start, ends if end is None else end)


def cost_of(document: Document, fault: FaultUsed, used_l: Mapping[str, float]) -> Decimal | None:
    """How much less the months' bills would have been without it: the dearest steps of each month fall away first.

    `used_l` is each month's whole water, what escaped included.
    """
    if not document.tiers or not fault.by_month:
        return None
    cost = Decimal(0)
    for month, escaped in fault.by_month.items():
        whole = max(used_l.get(month, 0.0), escaped)
        cost += month_bill(document, whole)[1] - month_bill(document, whole - escaped)[1]
    return cost
