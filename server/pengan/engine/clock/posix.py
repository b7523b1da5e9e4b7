"""Reading and writing a yearly rule as a POSIX TZ string, with the longer hours of RFC 9636 section 3.3.1.

`EST5EDT,M3.2.0,M11.1.0`, `<-02>2<-01>,M3.5.0/-1,M10.5.0/0`. Offsets are written west of UTC there, and kept east
of it here.
"""

from __future__ import annotations

import re

from ..message import saying
from .fault import ClockFault
from .rules import Rule, Summer, YearDay

UNREADABLE = saying(
    "clock.rule_unreadable", "The rule {rule} cannot be read from “{rest}” on; it should be written like {example}."
)
ENDS_EARLY = saying("clock.rule_ends_early", "The rule {rule} ends too early; it should be written like {example}.")
EXAMPLE = "CET-1CEST,M3.5.0,M10.5.0/3"

_NAME = re.compile(r"([A-Za-z]{3,})|<([A-Za-z0-9+-]{3,})>", re.ASCII)
_OFFSET = re.compile(r"([+-]?)(\d{1,2})(?::([0-5]\d)(?::([0-5]\d))?)?", re.ASCII)
_TIME = re.compile(r"([+-]?)(\d{1,3})(?::([0-5]\d)(?::([0-5]\d))?)?", re.ASCII)
_DAY = re.compile(r"M(\d{1,2})\.([1-5])\.([0-6])|J(\d{1,3})|(\d{1,3})", re.ASCII)

_MOST_OFFSET_H, _MOST_TIME_H = 24, 167


def read_posix(text: str) -> Rule:
    """The rule a POSIX TZ string means. Raises `ClockFault`, naming the place from which it cannot be read."""
    return _Reading(text).rule()


def write_posix(rule: Rule) -> str:
    """The rule as a POSIX TZ string, in its shortest form."""
    summer = rule.summer
    text = _name_text(rule.name) + _signed_text(-rule.offset_s)
    if summer is None:
        return text
    text += _name_text(summer.name)
    if summer.offset_s != rule.offset_s + 3600:
        text += _signed_text(-summer.offset_s)
    return f"{text},{_day_text(summer.starts)},{_day_text(summer.ends)}"


class _Reading:
    """One pass over the text, left to right."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0

    def rule(self) -> Rule:
        name, offset_s = self.name(), self.offset()
        if self.at == len(self.text):
            return Rule(name, offset_s)
        summer = self.summer(offset_s + 3600)
        if self.at != len(self.text):
            raise self.fault(self.at)
        return Rule(name, offset_s, summer)

    def summer(self, usual_s: int) -> Summer:
        name = self.name()
        offset_s = usual_s if self.text[self.at : self.at + 1] in ("", ",") else self.offset()
        return Summer(name, offset_s, self.year_day(), self.year_day())

    def name(self) -> str:
        match = self.match(_NAME)
        return match[1] or match[2]

    def offset(self) -> int:
        start = self.at
        match = self.match(_OFFSET)
        if int(match[2]) > _MOST_OFFSET_H:
            raise self.fault(start)
        return -_seconds(match)

    def year_day(self) -> YearDay:
        self.match(re.compile(","))
        start = self.at
        match = self.match(_DAY)
        month, week, weekday, day_j, day_n = (None if group is None else int(group) for group in match.groups())
        time_s = self.time()
        if month is not None and week is not None and weekday is not None and 1 <= month <= 12:
            return YearDay("M", time_s, month, week, weekday)
        if day_j is not None and 1 <= day_j <= 365:
            return YearDay("J", time_s, day=day_j)
        if day_n is not None and day_n <= 365:
            return YearDay("N", time_s, day=day_n)
        raise self.fault(start)

    def time(self) -> int:
        if self.text[self.at : self.at + 1] != "/":
            return 2 * 3600
        self.at += 1
        start = self.at
        match = self.match(_TIME)
        if int(match[2]) > _MOST_TIME_H:
            raise self.fault(start)
        return _seconds(match)

    def match(self, pattern: re.Pattern[str]) -> re.Match[str]:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise self.fault(self.at)
        self.at = match.end()
        return match

    def fault(self, at: int) -> ClockFault:
        if at >= len(self.text):
            return ClockFault(ENDS_EARLY(rule=self.text, example=EXAMPLE), "zone_rule")
        return ClockFault(UNREADABLE(rule=self.text, rest=self.text[at:], example=EXAMPLE), "zone_rule")


def _seconds(match: re.Match[str]) -> int:
    sign, hours, minutes, seconds = match.groups()
    size = int(hours) * 3600 + int(minutes or 0) * 60 + int(seconds or 0)
    return -size if sign == "-" else size


def _name_text(name: str) -> str:
    return name if name.isalpha() else f"<{name}>"


def _signed_text(seconds: int) -> str:
    minutes, rest = divmod(abs(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    text = f"{'-' if seconds < 0 else ''}{hours}"
    if minutes or rest:
        text += f":{minutes:02d}"
    return f"{text}:{rest:02d}" if rest else text


def _day_text(day: YearDay) -> str:
    if day.form == "M":
        text = f"M{day.month}.{day.week}.{day.weekday}"
    else:
        text = f"J{day.day}" if day.form == "J" else str(day.day)
    return text if day.time_s == 2 * 3600 else f"{text}/{_signed_text(day.time_s)}"
