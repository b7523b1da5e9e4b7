"""Seasonal percentages for programs whose run times are set by hand: suggestions, for a person to take."""

from __future__ import annotations

from datetime import date, timedelta

from ...document.document import Document
from ...message import Message
from ..normals import peak_month
from ..seasonal import Limits, Suggestion, suggest
from .weather import normals_of, site_days

RECENT_DAYS = 7
"""Common practice, no source: a week evens out single hot days and follows the season closely enough."""


def suggestions(document: Document, day: date) -> tuple[tuple[Suggestion, ...], tuple[Message, ...]]:
    """What each program's percentage should be by the week before a day, beside the year's peak; or why not."""
    found: list[Suggestion] = []
    said: list[Message] = []
    recent, peak = recent_reference(document, day), peak_reference(document)
    for program in sorted(document.programs.values(), key=lambda one: one.id):
        if not any(turn.program == program.id and turn.mode == "hand" for turn in document.turns.values()):
            continue
        limits = Limits(
            program.seasonal_least_pct, program.seasonal_most_pct, by_itself_pct=program.seasonal_by_itself_pct
        )
        suggestion, message = suggest(program.id, program.seasonal_pct, recent, peak, limits)
        found.extend([suggestion] if suggestion else [])
        said.extend([message] if message else [])
    return tuple(found), tuple(said)


def recent_reference(document: Document, day: date) -> tuple[float | None, ...]:
    """The reference of the week before a day; None for days of which only the normal is known."""
    days = site_days(document, day - timedelta(days=RECENT_DAYS), day - timedelta(days=1))
    if days is None:
        return ()
    return tuple(None if one.rung in ("normal", "none") else one.et_mm for one in days.references)


def peak_reference(document: Document) -> float | None:
    """The greatest month's normal, in mm a day; None without normals."""
    normals = normals_of(document)
    peak = peak_month(normals) if normals else None
    return normals.mm_per_day[peak - 1] if normals and peak else None
