"""What was used as it stands in answers: amounts in litres, sentences in the reader's language."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from datetime import datetime

from pengan.engine.journal.delivered import Lost
from pengan.engine.journal.unaccounted import MeterSum
from pengan.engine.journal.used import Water
from pengan.engine.message import Message
from pengan.engine.need.tonight import CAUTION
from pengan.exchange.used_book import used_book
from pengan.words.moments import write_date
from pengan.words.names import SiteNames
from pengan.words.reader import Reader
from pengan.words.say import say

from .faults import FaultUsed
from .operations import Used, UsedLine, flows_learned

Shown = dict[str, object]
FORMULA = ("=", "+", "-", "@", "\t", "\r")
AMOUNTS = ("planned_l", "delivered_l", "assumed_l", "beyond_l", "lost_l")
COLUMNS = ("key", "name", *AMOUNTS, *(f"lost_{why.value}_l" for why in Lost), "came_l", "before_l", "allowed_l")
LEARNED_COLUMNS = ("nights_by_learned_flows", "last_night", "stations_by_learned_flows", "stations")
METER_COLUMNS = ("meter", "name", "first_reading", "last_reading", "counted_l", "came_l", "unaccounted_l")


def used_shown(found: Used, reader: Reader) -> dict[str, object]:
    """The whole answer."""
    return {
        "from": found.first.isoformat(),
        "until": found.last.isoformat(),
        "by": found.by,
        "currency": found.currency,
        "nights": found.nights,
        "told": found.told,
        "lines": [_line(line, found) for line in found.lines],
        "total": _line(found.total, found),
        "meters": [_meter(one, found, reader) for one in found.meters],
        "unaccounted_l": _litres(found.unaccounted_ml),
        "faults": [_fault(one, found, reader) for one in found.faults],
        "said": _all_said(found.said, found, reader),
        "caution": say(CAUTION(), reader),
    }


def _line(line: UsedLine, found: Used) -> Shown:
    water = line.water
    return {
        "key": line.key,
        "name": name_of(found, found.by, line.key),
        "planned_l": water.planned_ml / 1000,
        "delivered_l": None if is_untold(water) else water.delivered_ml / 1000,
        "assumed_l": water.assumed_ml / 1000,
        "beyond_l": water.beyond_ml / 1000,
        "lost_l": water.lost_ml / 1000,
        "lost": [{"why": why.value, "volume_l": ml / 1000} for why, ml in sorted(water.lost.items()) if ml],
        "came_l": water.came_ml / 1000,
        "before_l": line.before_l,
        "allowed_l": line.allowed_l,
    }


def is_untold(water: Water) -> bool:
    """Nobody told anything of it: what was delivered is not known, the plan is assumed."""
    return water.assumed_ml > 0 and water.delivered_ml == 0


def name_of(found: Used, kind: str, key: str) -> str:
    """A record's name; empty where there is none, as of months and records that were removed since."""
    if kind == "month" or not key:
        return ""
    named = found.names.name(kind, key)
    return "" if named == key else named


def _meter(one: MeterSum, found: Used, reader: Reader) -> Shown:
    return {
        "supply": one.supply,
        "starts": one.start,
        "ends": one.end,
        "starts_local": _local(found, one.start),
        "ends_local": _local(found, one.end),
        "counted_l": one.counted_ml / 1000,
        "came_l": one.came_ml / 1000,
        "unaccounted_l": one.unaccounted_ml / 1000,
        "said": _all_said(one.says, found, reader),
    }


def _fault(one: FaultUsed, found: Used, reader: Reader) -> Shown:
    return {
        "alarm": one.alarm,
        "kind": one.kind,
        "supply": one.supply,
        "controller": one.controller,
        "since": one.since,
        "until": one.until,
        "escaped_l": one.escaped_l,
        "kept_l": one.kept_l,
        "cost": None if one.cost is None else str(one.cost),
        "said": _said(one.said, found, reader),
    }


def _all_said(messages: Iterable[Message], found: Used, reader: Reader) -> list[Shown]:
    return [_said(message, found, reader) for message in messages]


def _said(message: Message, found: Used, reader: Reader) -> Shown:
    return {**message.as_json(), "detail": say(message, reader, Dated(found.names, reader))}


class Dated:
    """A site's names with the date beside each time: what is said here is of many nights."""

    def __init__(self, names: SiteNames, reader: Reader) -> None:
        self.names, self.reader = names, reader

    def name(self, kind: str, record: str) -> str:
        """As people typed it."""
        return self.names.name(kind, record)

    def local(self, instant: int) -> tuple[datetime, str]:
        """The wall time, and behind it its mark and its date."""
        wall, mark = self.names.local(instant)
        return wall, f"{mark} ({write_date(wall.date(), self.reader)})"


def _litres(millilitres: int | None) -> float | None:
    return None if millilitres is None else millilitres / 1000


def used_table(found: Used) -> str:
    """The same as CSV (RFC 4180), in litres: a line each, the whole at last, and below them the meters, and in how many
    nights stations went by learned flows; how many stations in the last of them."""
    lines = [_cells(line, found) for line in (*found.lines, found.total)]
    meters = [_meter_cells(one, found) for one in found.meters]
    out = io.StringIO(newline="")
    learned = [_learned_cells(one) for one in found.said if one.code == flows_learned.code]
    below = ((METER_COLUMNS, meters), (LEARNED_COLUMNS, learned))
    parts = [row for columns, rows in below if rows for row in ([], columns, *rows)]
    csv.writer(out).writerows([COLUMNS, *lines, *parts])
    return out.getvalue()


def _cells(line: UsedLine, found: Used) -> list[str]:
    water = line.water
    delivered = "" if is_untold(water) else _figure(water.delivered_ml)
    amounts = [_figure(ml) for ml in (water.assumed_ml, water.beyond_ml, water.lost_ml)]
    lost = [_figure(water.lost.get(why, 0)) for why in Lost]
    others = ["" if value is None else repr(value) for value in (line.before_l, line.allowed_l)]
    named = [_typed(line.key), _typed(name_of(found, found.by, line.key))]
    return [*named, _figure(water.planned_ml), delivered, *amounts, *lost, _figure(water.came_ml), *others]


def _meter_cells(one: MeterSum, found: Used) -> list[str]:
    at = [_moment(found, instant) for instant in (one.start, one.end)]
    amounts = [_figure(ml) for ml in (one.counted_ml, one.came_ml, one.unaccounted_ml)]
    return [_typed(one.supply), _typed(name_of(found, "supply", one.supply)), *at, *amounts]


def _learned_cells(said: Message) -> list[str]:
    return [str(said.params[name]) for name in ("nights", "last_date", "learned", "stations")]


def _figure(millilitres: int) -> str:
    return repr(millilitres / 1000)


def _moment(found: Used, instant: int) -> str:
    """On the site's clock."""
    wall, mark = found.names.local(instant)
    return f"{wall:%Y-%m-%d %H:%M}{mark}"


def _local(found: Used, instant: int) -> str:
    return f"{found.names.local(instant)[0]:%Y-%m-%dT%H:%M}"


def _typed(text: str) -> str:
    """What somebody typed: a spreadsheet shall not work it out as a formula."""
    return f"'{text}" if text.startswith(FORMULA) else text


def book_of(found: Used, reader: Reader) -> bytes:
    """The same as an .xlsx file."""
    return used_book(used_shown(found, reader), found.names.name, lambda at: _moment(found, at), reader)
