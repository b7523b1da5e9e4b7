"""A night that is under way: what ran has run, and an edit changes only what is still to come."""

from __future__ import annotations

from datetime import date

from ..clock.nights import night_on
from ..clock.zones import clock_of
from ..document.document import Document
from ..plan.night import plan_night
from ..plan.sheet import NightSheet
from .rest import rest_of_night


def is_under_way(sheet: NightSheet, now: int) -> bool:
    """Whether at the instant `now` water has begun to run by this sheet and its night is not over."""
    return sheet.starts <= now < sheet.ends and any(run.start < now for run in sheet.runs)


def is_of_its_clock(document: Document, sheet: NightSheet) -> bool:
    """Whether the document's clock has this night where the sheet has it: else no rest of it can be worked out.

    Raises `ClockFault` where the document's clock is none.
    """
    night = night_on(clock_of(document.site), date.fromisoformat(sheet.night))
    return (night.starts, night.ends) == (sheet.starts, sheet.ends)


def edited_night(document: Document, night: date, before: NightSheet | None, now: int, effort: int) -> NightSheet:
    """The night of the sheet `before` (None: it has none yet) as an edited document has it at the instant `now`.

    Its rest once it is under way, else the whole of it, as where its clock was changed. Raises as `rest_of_night` and
    `plan_night` do.
    """
    if before is not None and is_under_way(before, now) and is_of_its_clock(document, before):
        return rest_of_night(document, before, now, effort=effort).sheet
    return plan_night(document, night, effort=effort, before=before)
