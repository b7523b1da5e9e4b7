"""A trouble as somebody types it, `break north-main from=23:40 flow=80`, read for one night of one site.

First what it is, then where (an id, a name, a station's number), then its parts in any order. Amounts are in the
reader's units, times on the site's clock. Words before `=` are the same in every language, as options are.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, time
from typing import Any

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.instants import Policy
from pengan.engine.document.document import Document
from pengan.engine.document.record import Record
from pengan.engine.message import Message, saying
from pengan.engine.plan.tonight import Tonight
from pengan.words import Reader, read, read_duration, read_figure
from pengan.words.moments import read_date
from pengan.words.wordings import folded

from .troubles import (
    CLOGS_IN_S,
    Break,
    Clogged,
    DeadValve,
    Drift,
    Leak,
    PowerCut,
    ShutMain,
    Silence,
    Stop,
    StuckMeter,
    StuckOpen,
    Trouble,
)

unknown_trouble = saying("field.unknown_trouble", "{text} is no trouble that can be played. Known: {choices}.")
unknown_part = saying("field.unknown_part", "{kind} has no part {part}. It has: {choices}.")
missing_part = saying("field.missing_part", "{kind} needs {part}, as in: {example}")
no_such_supply = saying("field.no_such_supply", "There is no supply {place} in this document.")
no_such_controller = saying("field.no_such_controller", "There is no controller {place} in this document.")
no_such_station = saying("field.no_such_station", "There is no station {place} in this document.")
no_such_place = saying("field.no_such_place", "There is neither a supply nor a station {place} in this document.")
several_places = saying("field.several_places", "Several are called {place}. Give an id.")
not_in_the_night = saying("field.not_in_the_night", "{text} does not come in this night.")
ends_before = saying("field.ends_before", "A trouble cannot be over before it begins: {text}")
out_of_range = saying("field.out_of_range", "{part} has to lie between {least} and {most}.")

_PARTS = re.compile(r"(?:^|\s)(from|until|for|flow|by|over|since)\s*=\s*")
Where = Mapping[str, Any]
"""The field that names the place, and its record."""
Parts = Mapping[str, str]


class TroubleFault(ValueError):
    """What was typed is no trouble of this site's night. `message` says why, in no language yet."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message


@dataclass(frozen=True, slots=True)
class _Sort:
    """One kind of trouble: the tables its place may be in, its own parts, and how it is made."""

    tables: tuple[str, ...]
    needs: tuple[str, ...]
    makes: Callable[[_Asked], Trouble]
    example: str
    may: tuple[str, ...] = ()
    anywhere: bool = False

    @property
    def parts(self) -> tuple[str, ...]:
        """Every part it can be given."""
        lasting = () if "since" in self.needs else ("from", "until", "for")
        return (*self.needs, *self.may, *lasting)


def read_trouble(text: str, tonight: Tonight, reader: Reader) -> Trouble:
    """The trouble that was typed. Raises `TroubleFault`, or `WordsFault` for an amount that cannot be read."""
    head, *rest = _PARTS.split(text.strip())
    kind, _, place = head.strip().partition(" ")
    sort = SORTS.get(kind)
    if sort is None:
        raise TroubleFault(unknown_trouble(text=kind or text, choices=", ".join(SORTS)))
    parts = dict(zip(rest[::2], (value.strip() for value in rest[1::2]), strict=True))
    for part in parts:
        if part not in sort.parts:
            raise TroubleFault(unknown_part(kind=kind, part=f"{part}=", choices=_listed(sort.parts)))
    for part in sort.needs:
        if not parts.get(part):
            raise TroubleFault(missing_part(kind=kind, part=f"{part}=", example=sort.example))
    where = _place(kind, sort, place.strip(), tonight)
    return sort.makes(_Asked(text, where, parts, tonight, reader))


def moment_in(text: str, tonight: Tonight) -> int:
    """The instant of a time of day in this night; of two, the first. Raises `TroubleFault`."""
    try:
        seconds = tonight.moments(text)
    except ClockFault as fault:
        raise TroubleFault(fault.message) from None
    for second in seconds:
        if 0 <= second < tonight.length:
            return tonight.instant(second)
    raise TroubleFault(not_in_the_night(text=text))


def supply_called(typed: str, document: Document) -> str:
    """The id of the supply of that id or name. Raises `TroubleFault`."""
    return record_called(typed, ("supply",), document)[1]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was typed, taken apart; reads its parts."""

    text: str
    where: Where
    parts: Parts
    tonight: Tonight
    reader: Reader

    @property
    def lasts(self) -> dict[str, Any]:
        """`at` and `until` as instants. Without a beginning it is there from noon on, without an end to the last."""
        at = moment_in(self.parts["from"], self.tonight) if "from" in self.parts else int(self.tonight.night.starts)
        until = None
        if "until" in self.parts:
            until = moment_in(self.parts["until"], self.tonight)
        elif "for" in self.parts:
            until = at + read_duration(self.parts["for"], self.reader)
        if until is not None and until <= at:
            raise TroubleFault(ends_before(text=self.text))
        return {"at": at, "until": until}

    def flow(self) -> float:
        """L/min, more than none."""
        flow = read(self.parts["flow"], "flow", self.reader)
        return self._held("flow", flow, 0.1, 100_000)

    def percent(self, least: float) -> float:
        """The part `by`, with or without its sign."""
        return self._held("by", float(read_figure(self.parts["by"].rstrip(" %٪"), self.reader)), least, 100)

    def over_s(self) -> int:
        """How long a filter takes to clog."""
        return read_duration(self.parts["over"], self.reader) if "over" in self.parts else CLOGS_IN_S

    def since(self) -> int:
        """Noon of the date on which a drift began."""
        noon = datetime.combine(read_date(self.parts["since"]), time(12))
        return int(self.tonight.clock.instant(noon, Policy.COMPATIBLE))

    def _held(self, part: str, value: float, least: float, most: float) -> float:
        if not least <= value <= most:
            raise TroubleFault(out_of_range(part=f"{part}=", least=least, most=most))
        return value


def _place(kind: str, sort: _Sort, typed: str, tonight: Tonight) -> Where:
    """The record meant, as `{"supply": id}`; nothing for the whole site, words where there is no record to mean."""
    if not sort.tables:
        return {"text": typed or kind}
    if not typed and sort.anywhere:
        return {}
    if not typed:
        raise TroubleFault(missing_part(kind=kind, part="…", example=sort.example))
    table, record = record_called(typed, sort.tables, tonight.document)
    return {table: record}


def record_called(typed: str, tables: tuple[str, ...], document: Document) -> tuple[str, str]:
    """By number, then id, then name, in any of the tables; case and accents do not matter. Raises `TroubleFault`."""
    for key in ("number", "id", "name"):
        found = [
            (table, record.id)
            for table in tables
            for record in _records(document, table)
            if folded(getattr(record, key, "")) == folded(typed)
        ]
        if len(found) == 1:
            return found[0]
        if found:
            raise TroubleFault(several_places(place=typed))
    nowhere = no_such_place if len(tables) > 1 else _NO_SUCH[tables[0]]
    raise TroubleFault(nowhere(place=typed))


def _records(document: Document, table: str) -> list[Record]:
    if table == "station":
        return list(document.stations.values())
    return list(document.supplies.values()) if table == "supply" else list(document.controllers.values())


def _listed(parts: tuple[str, ...]) -> str:
    return ", ".join(f"{part}=" for part in parts)


_NO_SUCH = {"supply": no_such_supply, "controller": no_such_controller, "station": no_such_station}


def _drift(a: _Asked) -> Trouble:
    return Drift(station=a.where["station"], pct_a_night=a.percent(-100), at=a.since())


def _clogged(a: _Asked) -> Trouble:
    return Clogged(supply=a.where["supply"], loss_pct=a.percent(0), over_s=a.over_s(), **a.lasts)


SORTS: Mapping[str, _Sort] = {
    "break": _Sort(
        ("supply", "station"), ("flow",), lambda a: Break(**a.where, flow_lpm=a.flow(), **a.lasts),
        "break north from=23:40 until=01:00 flow=80",
    ),
    "leak": _Sort(
        ("supply",), ("flow",), lambda a: Leak(supply=a.where["supply"], flow_lpm=a.flow(), **a.lasts),
        "leak north flow=5",
    ),
    "stuck-open": _Sort(
        ("station",), (), lambda a: StuckOpen(station=a.where["station"], **a.lasts), "stuck-open 104 from=01:00"
    ),
    "dead": _Sort(("station",), (), lambda a: DeadValve(station=a.where["station"], **a.lasts), "dead 104"),
    "clogged": _Sort(("supply",), ("by",), _clogged, "clogged north by=30 over=4 h", may=("over",)),
    "drift": _Sort(("station",), ("by", "since"), _drift, "drift 104 by=-2 since=2026-11-01"),
    "stuck-meter": _Sort(
        ("supply",), (), lambda a: StuckMeter(supply=a.where["supply"], **a.lasts), "stuck-meter north from=02:00"
    ),
    "power": _Sort(
        ("controller",), ("from",), lambda a: PowerCut(**a.where, **a.lasts), "power from=01:10 for=40 min",
        anywhere=True,
    ),
    "silent": _Sort(
        ("controller",), (), lambda a: Silence(controller=a.where["controller"], **a.lasts),
        "silent cabinet from=22:00 for=2 h",
    ),
    "shut": _Sort(
        ("supply",), (), lambda a: ShutMain(supply=a.where["supply"], **a.lasts), "shut north from=02:00 for=1 h"
    ),
    "stop": _Sort((), ("from",), lambda a: Stop(**a.where, **a.lasts), "stop Rain from=23:00 for=1 h"),
}  # fmt: skip
"""By the word that is typed."""
