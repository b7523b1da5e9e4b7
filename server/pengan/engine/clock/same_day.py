"""The rule that a site's own clock never changes twice on one day: the nights around it could not be told apart."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..message import saying
from .fault import ClockFault
from .rules import DAY_S, Change, Rule

SAME_DAY = saying("clock.changes_one_day", "Two changes of the clock fall on one day, {change_date}.")

ALL_CALENDARS = range(2000, 2029)
"""Every weekday meets every date of the year in these, with and without February 29."""


def same_day_fault(changes: tuple[Change, ...], field: str) -> ClockFault | None:
    """The fault of two changes that fall on one date of the wall, if any two do."""
    days = [(change.at + change.before_s) // DAY_S for change in changes]
    for day, following in zip(days, days[1:], strict=False):
        if day == following:
            return _fault(day, field)
    return None


def rule_same_day_fault(rule: Rule) -> ClockFault | None:
    """The same for a yearly rule, in any year.

    Changes that cancel at the turn of the year are no fault: that is how RFC 9636 section 3.3.1 writes a summer
    time all year round. Two within one year are.
    """
    if rule.summer is None:
        return None
    for year in ALL_CALENDARS:
        day = rule.summer.starts.wall_s(year) // DAY_S
        if day == rule.summer.ends.wall_s(year) // DAY_S:
            return _fault(day, "zone_rule")
    start, end = ((datetime(year, 1, 1) - datetime(1970, 1, 1)).days * DAY_S for year in (2000, 2029))
    return same_day_fault(tuple(rule.changes(start, end)), "zone_rule")


def _fault(day: int, field: str) -> ClockFault:
    when = (datetime(1970, 1, 1) + timedelta(days=day)).date()
    return ClockFault(SAME_DAY(change_date=when.isoformat()), field)
