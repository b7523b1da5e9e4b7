"""What comes in, taken into the journal: judged first, then written in one short transaction.

Each entry is answered: taken, known (it was told before, which is harmless), or kept aside with its faults.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from sqlalchemy.orm import Session

from pengan.engine.document.fault import Fault
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.reading import Batch, Faults, Known, as_text, read_entry, read_message
from pengan.engine.message import Message, saying

from ..database import reading
from ..people.rights import Actor, Role, require
from ..problems import Problem, fields_wrong
from .aside import Aside, keep_aside
from .known import known_at
from .names import PERSON, REPORTER
from .reporters import Reports, heard
from .storing import Outcome, store, sum_of, told_before

other_person = saying(
    "journal.other_person", "These entries are somebody else's. They wait on this phone for that person."
)
not_yours = saying("journal.not_yours", "Whoever told this may not tell the journal of “{kind}”.")

REPORTED = frozenset(
    {Kind.OPENED, Kind.CLOSED, Kind.FLOW, Kind.COUNT, Kind.POWER_LOST, Kind.POWER_BACK, Kind.SHUT, Kind.FREED,
     Kind.STOPPED, Kind.LIFTED, Kind.ALIVE, Kind.NOTE}
)  # fmt: skip
"""What a reporter may tell: what it does and measures."""
WALKED = frozenset(
    {Kind.NOTE, Kind.FINDING, Kind.ALARM_SEEN, Kind.ALARM_EXPLAINED, Kind.OPENED, Kind.CLOSED, Kind.COUNT}
)
"""What everybody who works at a site may tell: what one sees and does on a walk."""
PEOPLE_TELL: Mapping[Role, frozenset[Kind]] = {
    "crew": WALKED,
    "lead": frozenset(Kind) - {Kind.ALARM_OPENED, Kind.ALIVE},
    "manager": frozenset(Kind) - {Kind.ALARM_OPENED, Kind.ALIVE},
}


@dataclass(frozen=True, slots=True)
class Teller:
    """Who tells something, and of what they may."""

    by: str
    tells: frozenset[Kind]
    reporter: Reports | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of one entry. `id` is the one it came with, if it had one."""

    id: str | None
    outcome: Literal["taken", "known", "aside"]
    faults: Faults = ()


@dataclass(frozen=True, slots=True)
class Parcel:
    """Entries as one teller sent them, not read yet; or what could not be read at all, and why."""

    teller: Teller
    entries: Sequence[object]
    unread: Aside | None = None


def tell(session: Session, actor: Actor, site: str, entries: Sequence[object], now: int, person: str) -> list[Answer]:
    """What a person tells. Raises `Problem` unless they work at the site, and where it is not their own."""
    if person != actor.person:
        raise Problem(401, other_person())
    with reading(session):
        role = require(session, actor, site, "note")
    teller = Teller(PERSON + actor.person, PEOPLE_TELL[role] if role else frozenset())
    return take(session, site, [Parcel(teller, entries)], now)[0]


def report(session: Session, reporter: Reports, body: bytes, now: int) -> list[Answer]:
    """What a reporter tells, as it came. Raises a 400 `Problem` where it cannot be read, and keeps it aside."""
    parcel = parcel_of(reporter, body)
    answers = take(session, reporter.site, [parcel], now)[0]
    if parcel.unread is not None:
        raise Problem(400, fields_wrong(), parcel.unread.faults)
    return answers


def parcel_of(reporter: Reports, body: bytes) -> Parcel:
    """A reporter's message, its frame read."""
    teller = Teller(REPORTER + reporter.id, REPORTED, reporter)
    read = read_message(body)
    if isinstance(read, Batch):
        return Parcel(teller, read.entries)
    return Parcel(teller, (), unread(teller.by, body, read))


def unread(by: str, body: bytes, faults: Sequence[Fault]) -> Aside:
    """A whole message that could not be read, to be kept aside."""
    text = as_text(body)
    return Aside(by, text, tuple(faults), text)


def take(session: Session, site: str, parcels: Sequence[Parcel], now: int) -> list[list[Answer]]:
    """Take what several tellers sent to one site, in one transaction; what became of each entry of each parcel."""
    with reading(session):
        known = known_at(session, site)
    judged = [[_judged(one, parcel.teller, known, now) for one in parcel.entries] for parcel in parcels]
    with session.begin():
        sound = [entry for entries in judged for entry in entries if isinstance(entry, Entry)]
        outcomes = iter(store(session, site, sound, now))
        answers = [_answers(parcel, entries, outcomes) for parcel, entries in zip(parcels, judged, strict=True)]
        keep_aside(session, site, [one for _told, aside in answers for one in aside], now)
        for parcel, (told, aside) in zip(parcels, answers, strict=True):
            if parcel.teller.reporter is not None:  # last, so that all who write lock the site's head first
                heard(session, parcel.teller.reporter, sum(one.outcome == "taken" for one in told), len(aside), now)
    return [told for told, _aside in answers]


def _judged(given: object, teller: Teller, known: Known, now: int) -> Entry | Faults:
    entry = read_entry(given, teller.by, known, now)
    if isinstance(entry, Entry) and entry.kind not in teller.tells:
        return (Fault(None, None, "kind", not_yours(kind=entry.kind.value)),)
    return entry


def _answers(
    parcel: Parcel, judged: Sequence[Entry | Faults], outcomes: Iterator[Outcome]
) -> tuple[list[Answer], list[Aside]]:
    """What became of each entry of a parcel, and what of it is kept aside. Takes an outcome for each sound entry."""
    answers, aside = [], [] if parcel.unread is None else [parcel.unread]
    for given, one in zip(parcel.entries, judged, strict=True):
        outcome = next(outcomes) if isinstance(one, Entry) else None
        if isinstance(one, Entry) and (outcome == "taken" or outcome == "known"):
            answers.append(Answer(one.id, outcome))
            continue
        aside.append(_put_aside(parcel.teller.by, given, one, outcome))
        answers.append(Answer(_id_of(given), "aside", aside[-1].faults))
    return answers, aside


def _put_aside(by: str, given: object, judged: Entry | Faults, outcome: Outcome | None) -> Aside:
    text = as_text(given)
    if not isinstance(judged, Entry):
        return Aside(by, text, judged, text)
    assert isinstance(outcome, Message)
    same = outcome.code == told_before.code  # under ever new ids it is still the same
    return Aside(by, text, (Fault(None, None, "id", outcome),), sum_of(judged).hex() if same else text)


def _id_of(given: object) -> str | None:
    """The id it came with, however odd, as text."""
    found = given.get("id") if isinstance(given, Mapping) else None
    return found[:80] if isinstance(found, str) else None if found is None else as_text(found, 80)
