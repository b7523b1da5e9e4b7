"""What somebody tells the journal, read into an entry, or into everything that is wrong with it.

Whatever has a fault is kept aside whole: nothing is mended or guessed. `now` is the instant at which it came in.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from ..document.fault import DocumentFaults, Fault
from ..document.json_text import data_in
from ..document.read import MISSING, NOT_OBJECT, UNKNOWN_FIELD
from ..document.values import NOT_CHOICE, NOT_TEXT, read_value, shown
from ..document.written import DATE
from ..message import Message, saying
from .entry import Entry, Explained, Found, Kind
from .fields import ALLOWED, ENTRY_ID, FIELDS, MOST_BYTES, MOST_ENTRIES, NEEDED, PLACES, VALUES

AHEAD_S = 15 * 60
"""So far may the clock of whoever tells it be ahead of ours."""
EARLIEST = 946_684_800
"""2000-01-01T00:00Z: what says it is from before comes from a clock that was never set, as many begin at 1970."""
EXAMPLE = "2026-07-10T22:15:00+01:00"
_MOMENT = re.compile(rf"{DATE}[Tt ]\d\d:\d\d:\d\d(?:\.\d+)?(?:[Zz]|[+-]\d\d:\d\d)")
_ID = re.compile(ENTRY_ID)

no_instant = saying(
    "journal.no_instant",
    "{given} is no instant. Write it with its offset, as {example}, or in whole seconds since 1970.",
)
from_the_future = saying(
    "journal.from_the_future", "This is {ahead_s} ahead of the server's clock; {most_s} is the most that is taken."
)
clock_not_set = saying(
    "journal.clock_not_set", "{given} is before the year {year}: the clock of whoever told this was not set."
)
not_an_id = saying("journal.not_an_id", "{given} is no id of an entry: {least} to {most} letters, digits and dashes.")
no_such_kind = saying("journal.no_such_kind", "{given} is nothing the journal knows of. It knows: {choices}.")
not_of_kind = saying("journal.not_of_kind", "An entry of the kind {kind} does not have this.")
negative_flow = saying("journal.negative_flow", "Water does not flow backwards through a meter: {given} is below 0.")
no_such_station = saying("journal.no_such_station", "The site has no station {given}.")
no_such_supply = saying("journal.no_such_supply", "The site has no supply {given}.")
no_such_controller = saying("journal.no_such_controller", "The site has no controller {given}.")
no_entries = saying("journal.no_entries", "This holds no list “entries”.")
too_many = saying("journal.too_many", "{given} entries came at once; {most} is the most.")
too_large = saying("journal.too_large", "This has {given} bytes; {most} is the most.")

_NO_SUCH = {"station": no_such_station, "supply": no_such_supply, "controller": no_such_controller}
Faults = tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Known:
    """Ids that the site's document has, or once had: a late entry may be about a record that was removed since."""

    stations: Collection[str]
    supplies: Collection[str]
    controllers: Collection[str]

    def has(self, field: str, given: str) -> bool:
        """Whether the record that the field names is known."""
        return given in getattr(self, PLACES[field])


@dataclass(frozen=True, slots=True)
class Batch:
    """The entries in a message or request, not read yet, and the token beside them."""

    entries: list[object]
    token: str | None


def read_batch(body: object) -> Batch | Faults:
    """The frame of a message or request, or what is wrong with it."""
    if not isinstance(body, Mapping):
        return (Fault(None, None, None, NOT_OBJECT(given=shown(body))),)
    unknown = [name for name in body if name not in ("token", "entries")]
    entries, token = body.get("entries"), body.get("token")
    if unknown:
        return tuple(
            Fault(None, None, _plain(str(name), 80), UNKNOWN_FIELD(fields="token, entries")) for name in unknown
        )
    if token is not None and not isinstance(token, str):
        return (Fault(None, None, "token", NOT_TEXT(given="…")),)
    if not isinstance(entries, list):
        return (Fault(None, None, "entries", no_entries()),)
    if len(entries) > MOST_ENTRIES:
        return (Fault(None, None, "entries", too_many(given=len(entries), most=MOST_ENTRIES)),)
    return Batch(entries, token)


def read_message(text: bytes) -> Batch | Faults:
    """The same of a message's bytes, which may be anything at all."""
    if len(text) > MOST_BYTES:
        return (Fault(None, None, None, too_large(given=len(text), most=MOST_BYTES)),)
    try:
        return read_batch(data_in(text))
    except DocumentFaults as found:
        return found.faults


def read_entry(given: object, by: str, known: Known, now: int) -> Entry | Faults:
    """The entry that `by` told, or every fault of it."""
    if not isinstance(given, Mapping):
        return (Fault(None, None, None, NOT_OBJECT(given=shown(given))),)
    reading = _Reading(given, known, now)
    entry = reading.entry(by)
    return tuple(reading.faults) if entry is None else entry


class _Reading:
    """One entry on its way; gathers its faults in the order of its fields."""

    def __init__(self, given: Mapping[object, object], known: Known, now: int) -> None:
        self.given, self.known, self.now = given, known, now
        self.faults: list[Fault] = []

    def entry(self, by: str) -> Entry | None:
        """The entry; None where there are faults."""
        values = {str(name): value for name, value in self.given.items() if value is not None}
        made: dict[str, Any] = {"id": self._id(values), "at": self._at(values), "kind": self._kind(values)}
        kind = made["kind"] if isinstance(made["kind"], Kind) else None
        for name in values:
            if name not in made:
                made[name] = self._field(name, values[name], kind)
        for name in NEEDED[kind] if kind else ():
            if name not in values or values[name] == "":
                self._fault(name, MISSING())
        return None if self.faults else Entry(by=by, **made)

    def _id(self, values: Mapping[str, object]) -> object:
        return self._name("id", values["id"]) if "id" in values else self._fault("id", MISSING())

    def _name(self, field: str, given: object) -> object:
        if isinstance(given, str) and _ID.fullmatch(given):
            return given
        return self._fault(field, not_an_id(given=shown(given), least=8, most=64))

    def _at(self, values: Mapping[str, object]) -> object:
        if "at" not in values:
            return self._fault("at", MISSING())
        at = read_instant(values["at"])
        if at is None:
            return self._fault("at", no_instant(given=shown(values["at"]), example=EXAMPLE))
        if at > self.now + AHEAD_S:
            return self._fault("at", from_the_future(ahead_s=min(at - self.now, 10**10), most_s=AHEAD_S))
        if at < EARLIEST:
            return self._fault("at", clock_not_set(given=shown(values["at"]), year=2000))
        return at

    def _kind(self, values: Mapping[str, object]) -> object:
        given = values.get("kind")
        if given is None:
            return self._fault("kind", MISSING())
        if isinstance(given, str) and given in _KINDS:
            return _KINDS[given]
        return self._fault("kind", no_such_kind(given=shown(given), choices=", ".join(_KINDS)))

    def _field(self, name: str, given: object, kind: Kind | None) -> object:
        if name not in _FIELDS:
            return self._fault(_plain(name, 80), UNKNOWN_FIELD(fields=", ".join(FIELDS)))
        if kind is not None and name not in ALLOWED[kind]:
            return self._fault(name, not_of_kind(kind=kind.value))
        if name in PLACES:
            return self._place(name, given)
        return self._name(name, given) if name == "alarm" else self._value(name, given)

    def _place(self, name: str, given: object) -> object:
        if isinstance(given, str) and self.known.has(name, given):
            return given
        return self._fault(name, _NO_SUCH[name](given=shown(given)))

    def _value(self, name: str, given: object) -> object:
        if name == "flow_lpm" and isinstance(given, int | float) and given < 0:
            return self._fault(name, negative_flow(given=shown(given)))
        choice = _CHOICES.get(name)
        if choice is not None and not isinstance(given, str):
            return self._fault(name, NOT_CHOICE(given=shown(given), choices=", ".join(choice)))
        value, fault = read_value(VALUES[name], given)
        if fault is not None:
            return self._fault(name, fault)
        return value if choice is None else choice(str(value))

    def _fault(self, field: str, message: Message) -> object:
        """Note it; None stands in the value's place."""
        self.faults.append(Fault(None, None, field, message))
        return None


_KINDS: Mapping[str, Kind] = {kind.value: kind for kind in Kind}
_FIELDS = frozenset(FIELDS)
_CHOICES: Mapping[str, type[Found] | type[Explained]] = {"finding": Found, "explained": Explained}


def read_instant(given: object) -> int | None:
    """Whole seconds since 1970Z, from a number of them or from an instant as RFC 3339 writes it (fractions fall away).

    None where it is neither. A number with a fraction is none: whoever counts so may count in something else.
    """
    if isinstance(given, bool):
        return None
    if isinstance(given, int):
        return given
    if not isinstance(given, str) or not _MOMENT.fullmatch(given):
        return None
    try:
        return int(datetime.fromisoformat(given.upper()).timestamp())
    except (ValueError, OverflowError):
        return None


def told(entry: Entry) -> dict[str, object]:
    """The entry as it is told: what `read_entry` reads, without who told it and without what is not set."""
    given = {name: getattr(entry, name) for name in FIELDS}
    return {name: value for name, value in given.items() if value not in (None, "")}


def as_text(given: object, most: int = 4000) -> str:
    """What came, as text to be kept aside: as it was sent, cut where it is long."""
    if isinstance(given, bytes):
        return _plain(given[: 4 * most].decode("utf-8", "replace"), most)
    try:
        return _plain(json.dumps(given, ensure_ascii=False), most)
    except (TypeError, ValueError, RecursionError):
        return _plain(shown(given), most)


def _plain(text: str, most: int) -> str:
    """Without what a database does not keep: the zero character, and halves of surrogate pairs."""
    return text[:most].encode("utf-8", "replace").decode("utf-8").replace("\0", "\ufffd")
