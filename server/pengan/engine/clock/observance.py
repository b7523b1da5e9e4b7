"""The parts of a VTIMEZONE (RFC 5545 section 3.6.5): when an offset begins, and how a calendar file writes that."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from ..message import saying
from .fault import ClockFault
from .instants import EPOCH, wall_seconds
from .recurrence import Recurrence, read_recurrence, write_recurrence
from .rules import DAY_S, EPOCH_DAY

NOT_A_ZONE = saying("clock.vtimezone_none", "No VTIMEZONE with a STANDARD or DAYLIGHT part is in this text.")
BAD_LINE = saying("clock.vtimezone_line", "The VTIMEZONE cannot be read because of the line “{line}”.")
LACKING = saying("clock.vtimezone_lacking", "A {part} of the VTIMEZONE has no {property}.")

PARTS = ("STANDARD", "DAYLIGHT")
_LINE = re.compile(r'([A-Za-z0-9-]+)((?:;[^":]*(?:"[^"]*"[^":]*)*)?):(.*)', re.DOTALL)
_OFFSET = re.compile(r"([+-])(\d\d)([0-5]\d)([0-5]\d)?", re.ASCII)
_WALL = re.compile(r"\d{8}T\d{6}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Observance:
    """From `start` on the wall of `before_s`, and again by the recurrence or on `more`, the offset is `after_s`."""

    part: str
    before_s: int
    after_s: int
    start: datetime
    rule: Recurrence | None = None
    more: tuple[datetime, ...] = ()
    name: str = ""

    def onsets(self, last_year: int) -> Iterator[int]:
        """The instants at which it begins, in no order, up to the end of a year."""
        yield wall_seconds(self.start) - self.before_s
        for wall in self.more:
            yield wall_seconds(wall) - self.before_s
        if self.rule is not None:
            yield from self._recurring(self.rule, last_year)

    def _recurring(self, rule: Recurrence, last_year: int) -> Iterator[int]:
        time_s = wall_seconds(self.start) % DAY_S
        left = (rule.count or 0) - 1
        for year in range(self.start.year, last_year + 1):
            for day in rule.days_in(year, self.start.date()):
                wall_s = (day - EPOCH_DAY) * DAY_S + time_s
                if wall_s <= wall_seconds(self.start):
                    continue
                if (rule.count is not None and left <= 0) or self._is_past(rule.until, wall_s):
                    return
                left -= 1
                yield wall_s - self.before_s

    def _is_past(self, until: str, wall_s: int) -> bool:
        """UNTIL is in UTC in a VTIMEZONE; files that give wall time or a date are understood as well."""
        if not until:
            return False
        if len(until) == len("YYYYMMDD"):
            return wall_s >= wall_seconds(datetime.strptime(until, "%Y%m%d")) + DAY_S
        end = wall_seconds(datetime.strptime(until[:15], "%Y%m%dT%H%M%S"))
        return (wall_s - self.before_s if until.endswith("Z") else wall_s) > end


def read_observances(text: str) -> list[Observance]:
    """The parts of the first VTIMEZONE in a text. Raises `ClockFault`."""
    found: list[Observance] = []
    part, properties = "", list[tuple[str, str]]()
    for name, value in _zone_lines(text):
        if name == "BEGIN" and value.upper() in PARTS:
            part, properties = value.upper(), []
        elif name == "END" and value.upper() == part:
            found.append(_observance(part, properties))
            part = ""
        elif part:
            properties.append((name, value))
    if not found:
        raise ClockFault(NOT_A_ZONE())
    return found


def observance_lines(item: Observance) -> Iterator[str]:
    """One part as the lines of a calendar file."""
    yield f"BEGIN:{item.part}"
    yield f"DTSTART:{_wall_text(item.start)}"
    yield f"TZOFFSETFROM:{_offset_text(item.before_s)}"
    yield f"TZOFFSETTO:{_offset_text(item.after_s)}"
    if item.rule is not None:
        yield f"RRULE:{write_recurrence(item.rule)}"
    for wall in item.more:
        yield f"RDATE:{_wall_text(wall)}"
    if item.name:
        yield f"TZNAME:{item.name}"
    yield f"END:{item.part}"


def wall_at(instant: int, offset_s: int) -> datetime:
    """What a wall with this offset reads at an instant."""
    return EPOCH + timedelta(seconds=instant + offset_s)


def _zone_lines(text: str) -> Iterator[tuple[str, str]]:
    """Name and value of each unfolded line inside the first VTIMEZONE, parameters left out."""
    inside = False
    for line in re.sub(r"\r?\n[ \t]", "", text).splitlines():
        match = _LINE.fullmatch(line)
        if match is None:
            if inside and line.strip():
                raise ClockFault(BAD_LINE(line=line))
            continue
        name, value = match[1].upper(), match[3].strip()
        if (name, value.upper()) == ("END", "VTIMEZONE"):
            return
        if inside:
            yield name, value
        inside = inside or (name, value.upper()) == ("BEGIN", "VTIMEZONE")


def _observance(part: str, properties: list[tuple[str, str]]) -> Observance:
    values = dict(properties)
    for needed in ("DTSTART", "TZOFFSETFROM", "TZOFFSETTO"):
        if needed not in values:
            raise ClockFault(LACKING(part=part, property=needed))
    rules = [value for name, value in properties if name == "RRULE"]
    if len(rules) > 1:
        raise ClockFault(BAD_LINE(line=rules[1]))
    more = (item for name, value in properties if name == "RDATE" for item in value.split(","))
    return Observance(
        part,
        _offset(values["TZOFFSETFROM"]),
        _offset(values["TZOFFSETTO"]),
        _wall(values["DTSTART"]),
        read_recurrence(rules[0]) if rules else None,
        tuple(_wall(item) for item in more),
        values.get("TZNAME", ""),
    )


def _offset(value: str) -> int:
    match = _OFFSET.fullmatch(value)
    if match is None or int(match[2]) > 24:
        raise ClockFault(BAD_LINE(line=value))
    size = int(match[2]) * 3600 + int(match[3]) * 60 + int(match[4] or 0)
    return -size if match[1] == "-" else size


def _wall(value: str) -> datetime:
    try:
        if _WALL.fullmatch(value):
            return datetime.strptime(value, "%Y%m%dT%H%M%S")
    except ValueError:
        pass
    raise ClockFault(BAD_LINE(line=value))


def _wall_text(wall: datetime) -> str:
    return wall.isoformat(timespec="seconds").replace("-", "").replace(":", "")


def _offset_text(offset_s: int) -> str:
    minutes, seconds = divmod(abs(offset_s), 60)
    text = f"{'-' if offset_s < 0 else '+'}{minutes // 60:02d}{minutes % 60:02d}"
    return f"{text}{seconds:02d}" if seconds else text
