"""A CSV file brought into a site's journal: by its people in the app, or on the server's command line.

What is no table of ours is refused whole, and nothing of it is taken. Line by line then, as whatever else is told:
brought twice it doubles nothing, and what is wrong with one line concerns it alone.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

from sqlalchemy.orm import Session

from pengan.engine.clock.zones import clock_of
from pengan.engine.document.fault import Fault
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.fields import FIELDS, MOST_ENTRIES
from pengan.engine.journal.reading import Faults
from pengan.engine.message import Message, saying
from pengan.exchange.csv_folder import decode
from pengan.exchange.journal_csv import UNITS, Columns, Mapped, called, columns_of, entry_in, lines_of

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem, fields_wrong
from ..sites.operations import document_of
from .names import PERSON, SERVER
from .taking import PEOPLE_TELL, Parcel, Teller, take

MOST_BYTES = 2 * 1024 * 1024
"""Of a file that comes over HTTP: some fifty thousand lines, which take a quarter of a minute."""
MOST_TOLD = 100
"""So many faulty lines are told of; all are kept aside."""
NEEDED = ("at", "kind")

no_text = saying("journal.no_text", "This is no text: a CSV file is one, a spreadsheet's own file is not.")
no_csv = saying(
    "journal.no_csv",
    "From line {line} on this is no CSV: a quotation mark is open, or the rest of the file is missing. Nothing was "
    "taken.",
)
no_column = saying("journal.no_column", "No column is headed “{heading}”, and nothing says it for every line.")
not_a_pair = saying("journal.not_a_pair", "{given} should be like FIELD=…; fields are: {fields}.")
not_a_unit = saying("journal.not_a_unit", "{given} is not a unit of a field. Units are: {units}.")


@dataclass(frozen=True, slots=True)
class FaultyLine:
    """A line of the file that was kept aside, by its number there, and every fault of it."""

    line: int
    faults: Faults


@dataclass(slots=True)
class Brought:
    """What became of a file's lines; the headings of columns that are not read; the first faulty lines."""

    left_out: Sequence[str] = ()
    taken: int = 0
    known: int = 0
    aside: int = 0
    lines: list[FaultyLine] = field(default_factory=list)


def mapped_of(columns: Iterable[str], units: Iterable[str], always: Iterable[str]) -> Mapped:
    """How a file is read, out of pairs as `count_l=m3`. Raises a 422 `Problem` with every fault."""
    faults: list[Fault] = []
    found = [_pairs(name, given, faults) for name, given in (("column", columns), ("unit", units), ("always", always))]
    for name, unit in found[1].items():
        if unit not in UNITS.get(name, ()):
            known = ", ".join(f"{one}={key}" for one, keys in UNITS.items() for key in keys)
            faults.append(Fault(None, None, "unit", not_a_unit(given=f"{name}={unit}", units=known)))
    if faults:
        raise Problem(422, fields_wrong(), faults)
    return Mapped(*found)


def _pairs(option: str, given: Iterable[str], faults: list[Fault]) -> dict[str, str]:
    found = {}
    for one in given:
        name, sign, value = one.partition("=")
        if sign and name in FIELDS:
            found[name] = value
        else:
            faults.append(Fault(None, None, option, not_a_pair(given=one, fields=", ".join(FIELDS))))
    return found


def bring_for(session: Session, actor: Actor, site: str, content: bytes, mapped: Mapped, now: int) -> Brought:
    """What a person brings. Raises `Problem` unless they may edit the site, and as `bring` does."""
    with reading(session):
        role = require(session, actor, site, "edit")
    tells = PEOPLE_TELL[role] if role else frozenset[Kind]()
    return bring(session, site, content, mapped, Teller(PERSON + actor.person, tells), now)


def bring_here(session: Session, site: str, content: bytes, mapped: Mapped, now: int) -> Brought:
    """What is brought on the server itself. Raises `Problem` as `bring` does."""
    return bring(session, site, content, mapped, Teller(SERVER, frozenset(Kind)), now)


def bring(session: Session, site: str, content: bytes, mapped: Mapped, teller: Teller, now: int) -> Brought:
    """Take a file's lines, so many at a time. Raises `Problem` where there is no such site, and a 422 one where the
    file is no table of entries; then nothing of it was taken."""
    document = document_of(session, site).document
    clock, names = clock_of(document.site), called(document)
    text = _text_of(content)
    lines, columns = _opened(text, mapped)
    brought = Brought(columns.left_out)
    while some := list(islice(lines, MOST_ENTRIES)):
        entries = [entry_in(cells, columns, mapped, clock, names) for _number, cells in some]
        answers = take(session, site, [Parcel(teller, entries)], now)[0]
        for (number, _cells), answer in zip(some, answers, strict=True):
            setattr(brought, answer.outcome, getattr(brought, answer.outcome) + 1)
            if answer.faults and len(brought.lines) < MOST_TOLD:
                brought.lines.append(FaultyLine(number, answer.faults))
    return brought


def _text_of(content: bytes) -> str:
    text = decode(content)
    if text is None:
        raise _refused(no_text())
    return text


def _opened(text: str, mapped: Mapped) -> tuple[Iterator[tuple[int, list[str]]], Columns]:
    """The lines under the headings, and what their columns hold. Gone through once before, so that half a file is
    known before any of it is taken."""
    number = 0
    try:
        for number, _cells in lines_of(text):  # noqa: B007
            pass
    except csv.Error:
        raise _refused(no_csv(line=number + 1)) from None
    lines = lines_of(text)
    columns = columns_of(next(lines, (0, list[str]()))[1], mapped)
    there = {*columns.fields, *mapped.always}
    missing = [
        Fault(None, None, name, no_column(heading=mapped.headings.get(name, name)))
        for name in NEEDED
        if name not in there
    ]
    if missing:
        raise Problem(422, fields_wrong(), missing)
    return lines, columns


def _refused(why: Message) -> Problem:
    return Problem(422, why)
