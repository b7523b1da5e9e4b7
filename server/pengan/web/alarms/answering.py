"""What people do about an alarm: they see it, say what it was, or end it. Each is an entry of theirs in the journal.

It may come by its own address, or as an entry that a phone without signal told later: the same, and doing it twice
changes nothing.
"""

from __future__ import annotations

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.journal.alarm import ENDED_BY_HAND, made_id
from pengan.engine.journal.entry import Entry, Explained, Kind
from pengan.engine.message import saying

from ..journal.inserting import insert_into
from ..journal.names import PERSON
from ..journal.storing import store
from ..people.rights import Actor, require
from ..problems import Problem
from .filing import Filing, as_json
from .models import Alarm, AlarmLook
from .queue import locked

no_such_alarm = saying("alarm.no_such_alarm", "There is no such alarm.")
OF_PEOPLE = (Kind.ALARM_SEEN, Kind.ALARM_EXPLAINED, Kind.ALARM_ENDED)
"""What people tell the journal about alarms."""


def see(session: Session, actor: Actor, site: str, alarm: str, now: Instant) -> Alarm:
    """Somebody has seen it. Raises `Problem` unless they work at the site and there is such an alarm."""
    with session.begin():
        require(session, actor, site, "note")
        return _do(session, site, alarm, _seen(actor.person, alarm, now))


def explain(session: Session, actor: Actor, site: str, alarm: str, kind: str, text: str, now: Instant) -> Alarm:
    """Somebody says what it was. Whoever explains it has seen it. Raises `Problem` as `see` does."""
    with session.begin():
        require(session, actor, site, "note")
        _do(session, site, alarm, _seen(actor.person, alarm, now))
        return _do(session, site, alarm, _explained(actor.person, alarm, Explained(kind), text, now))


def end_by_hand(session: Session, actor: Actor, site: str, alarm: str, text: str, now: Instant) -> Alarm:
    """Somebody says that it is over: it is opened again only by a fault that begins anew. Raises `Problem` unless they
    may edit the site and there is such an alarm."""
    with session.begin():
        require(session, actor, site, "edit")
        _do(session, site, alarm, _seen(actor.person, alarm, now))
        return _do(session, site, alarm, _ended(actor.person, alarm, text, now))


def heed(filing: Filing, entry: Entry) -> None:
    """Take in what a person told the journal about an alarm, where it was not done by its own address already."""
    person = entry.by.removeprefix(PERSON)
    found = filing.session.get(Alarm, (filing.watched.site, entry.alarm)) if entry.by != person else None
    if found is not None and not _is_done(found, entry) and _changed(filing.session, found, entry):
        filing.changed[found.id] = found
        if entry.kind is Kind.ALARM_ENDED:
            filing.ended.append(found)


def _do(session: Session, site: str, alarm: str, entry: Entry) -> Alarm:
    if session.get(Alarm, (site, alarm)) is None:
        raise Problem(404, no_such_alarm())
    watched = locked(session, site)
    found = session.get_one(Alarm, (site, alarm), populate_existing=True)
    if _changed(session, found, entry):
        watched.changes += 1
        found.change = watched.changes
        session.flush()
        store(session, site, [entry], entry.at)
    return found


def _is_done(alarm: Alarm, entry: Entry) -> bool:
    """Whether the journal only repeats what was said by its own address, at that very second."""
    return entry.kind is Kind.ALARM_EXPLAINED and alarm.explained_at == entry.at


def _changed(session: Session, alarm: Alarm, entry: Entry) -> bool:
    """Do to the alarm what the entry says; whether that was news."""
    person = entry.by.removeprefix(PERSON)
    if entry.kind is Kind.ALARM_SEEN:
        return _look(session, alarm, person, entry.at)
    if entry.kind is Kind.ALARM_EXPLAINED:
        explained = entry.explained or Explained.OTHER
        same = (alarm.explained, alarm.explained_text, alarm.explained_by) == (explained.value, entry.text, person)
        if same or (alarm.explained_at or 0) > entry.at:
            return False
        alarm.explained, alarm.explained_text = explained.value, entry.text
        alarm.explained_by, alarm.explained_at = person, entry.at
        return True
    if alarm.ended_at is not None:
        return False
    alarm.ended_at, alarm.ended_by, alarm.ended_why = entry.at, entry.by, as_json(ENDED_BY_HAND().as_json())
    return True


def _look(session: Session, alarm: Alarm, person: str, at: int) -> bool:
    row = {"site": alarm.site, "alarm": alarm.id, "person": person, "at": at}
    new = insert_into(session)(AlarmLook).values(row).on_conflict_do_nothing().returning(AlarmLook.person)
    return session.execute(new).one_or_none() is not None


def _seen(person: str, alarm: str, now: int) -> Entry:
    return Entry(f"{alarm}-seen-{made_id(person)[:12]}", now, Kind.ALARM_SEEN, PERSON + person, alarm=alarm)


def _explained(person: str, alarm: str, explained: Explained, text: str, now: int) -> Entry:
    id = f"{alarm}-said-{made_id(person, explained.value, text, str(now))[:12]}"
    return Entry(id, now, Kind.ALARM_EXPLAINED, PERSON + person, alarm=alarm, explained=explained, text=text)


def _ended(person: str, alarm: str, text: str, now: int) -> Entry:
    id = f"{alarm}-over-{made_id(person, str(now))[:12]}"
    return Entry(id, now, Kind.ALARM_ENDED, PERSON + person, alarm=alarm, text=text)
