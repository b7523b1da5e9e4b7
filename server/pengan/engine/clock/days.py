"""On which calendar dates a day rule holds. Knows nothing of clocks: a date goes in, yes or no comes out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from ..document.tables import DayRule

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def holds(rule: DayRule, day: date) -> bool:
    """Whether the rule holds on a date, and the date lies in the rule's season if it has one."""
    return _HOLDS[rule.days](rule, day) and in_season(rule, day)


def in_season(rule: DayRule, day: date) -> bool:
    """Whether a date lies in the season, first and last day included; a season may run over the turn of the year."""
    first, last = rule.season_from or "01-01", rule.season_to or "12-31"
    today = day.strftime("%m-%d")
    if first <= last:
        return first <= today <= last
    return today >= first or today <= last


def words_in(text: str) -> tuple[str, ...]:
    """The parts of a list with commas, without the blanks around them."""
    return tuple(part.strip() for part in text.split(",") if part.strip())


def _every_n(rule: DayRule, day: date) -> bool:
    if rule.every_n_days is None or rule.every_from is None:
        return False
    passed = (day - date.fromisoformat(rule.every_from)).days
    return passed >= 0 and passed % rule.every_n_days == 0


_HOLDS: Mapping[str, Callable[[DayRule, date], bool]] = {
    "every_day": lambda rule, day: True,
    "weekdays": lambda rule, day: WEEKDAYS[day.weekday()] in words_in(rule.weekdays),
    "every_n": _every_n,
    "odd": lambda rule, day: day.day % 2 == 1,
    "even": lambda rule, day: day.day % 2 == 0,
    "dates": lambda rule, day: day.isoformat() in words_in(rule.dates),
    "asked": lambda rule, day: False,
}
