"""A day rule has the parts its kind needs, and seasons have both ends."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Draft, Drafts
from ..fault import Fault
from ..values import shown
from ..written import is_dates, is_weekdays

NEEDS = saying("fault.day_rule_needs", "The day rule “{days}” needs this.")
HALF_SEASON = saying("fault.half_season", "A season needs both its first and its last day.")
NOT_WEEKDAYS = saying("fault.not_weekdays", "{given} is no list of weekdays. Write it as {example}.")
NOT_DATES = saying("fault.not_dates", "{given} is no list of dates of the calendar. Write it as {example}.")
ASKED = saying("fault.asked_span", "“asked” is for programs; a window or a closure needs days.")

NEEDED = {"weekdays": ("weekdays",), "every_n": ("every_n_days", "every_from"), "dates": ("dates",)}


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Everything wrong with the day rules of programs, windows and closures."""
    for draft in drafts.of("programs", "windows", "closures"):
        yield from _missing(draft)
        yield from _lists(draft)
        if draft.text("days") == "asked" and draft.table != "programs":
            yield draft.fault("days", ASKED())


def _missing(draft: Draft) -> Iterator[Fault]:
    days = draft.text("days")
    for field in NEEDED.get(days, ()):
        if not draft.has(field) or draft.values.get(field) == "":
            yield draft.fault(field, NEEDS(days=days))
    ends = [field for field in ("season_from", "season_to") if not draft.has(field)]
    if len(ends) == 1:
        yield draft.fault(ends[0], HALF_SEASON())


def _lists(draft: Draft) -> Iterator[Fault]:
    weekdays, dates = draft.text("weekdays"), draft.text("dates")
    if weekdays and not is_weekdays(weekdays):
        yield draft.fault("weekdays", NOT_WEEKDAYS(given=weekdays, example="mon,thu"))
    if dates and not is_dates(dates):
        yield draft.fault("dates", NOT_DATES(given=shown(dates), example="2026-11-25,2026-12-01"))
