"""Who is to be told of an alarm, and when: written down in the transaction that opens it."""

from __future__ import annotations

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from ..alarms.filing import Filing
from ..alarms.models import Alarm
from ..journal.inserting import insert_into
from ..people.models import Device, Grant, Person
from .models import PushMessage, PushSubscription
from .quiet import quiet_until
from .wishes import wish_of


def queue_told(session: Session, filing: Filing) -> None:
    """A message for each device of everybody at the site who wants to know, for each alarm that is open now."""
    fresh = [alarm for alarm in filing.opened if alarm.ended_at is None]
    if not fresh:
        return
    rows = [row for alarm in fresh for row in _messages(session, filing, alarm)]
    if rows:
        session.execute(insert_into(session)(PushMessage).on_conflict_do_nothing(), rows)


def _messages(session: Session, filing: Filing, alarm: Alarm) -> list[dict[str, object]]:
    out: list[dict[str, object]] = []
    for one in session.scalars(_devices_at(filing.watched.site)):
        wanted = wish_of(session, one.team, one.person)
        if alarm.gravity < wanted.least:
            continue
        until = quiet_until(filing.clock, wanted.quiet_from, wanted.quiet_to, filing.now)
        waits = until is not None and (wanted.quiet_but is None or alarm.gravity < wanted.quiet_but)
        due = until if waits and until is not None else filing.now
        key = {"site": alarm.site, "alarm": alarm.id, "device": one.device, "team": one.team, "person": one.person}
        out.append({**key, "due": due, "waited": waits, "tries": 0})
    return out


def _devices_at(site: str) -> Select[PushSubscription]:
    """The subscriptions of all who have a role there, on devices that still let them in."""
    return (
        select(PushSubscription)
        .join(Grant, (Grant.team == PushSubscription.team) & (Grant.person == PushSubscription.person))
        .join(Person, (Person.team == Grant.team) & (Person.id == Grant.person))
        .join(Device, (Device.team == PushSubscription.team) & (Device.id == PushSubscription.device))
        .where(Grant.site == site, Grant.role.is_not(None), Person.removed_at.is_(None), Device.ended_at.is_(None))
        .order_by(PushSubscription.team, PushSubscription.device)
    )
