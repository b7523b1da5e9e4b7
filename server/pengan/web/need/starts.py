"""Where balances begin: the mornings that are written down, beside what the document says of the soil."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from pengan.engine.document.document import Document
from pengan.engine.need.site.nights import Start, starts_on
from pengan.engine.need.site.watered import told_starts

from .waterings import Watering, since


def earliest_starts(document: Document, kept: Iterable[Watering], night: date) -> dict[str, Start]:
    """By hydrozone: what somebody last said of its soil; where that is too long ago, the oldest morning written down.

    A hydrozone that has neither is left out: its balance begins where the document says.
    """
    oldest = since(night)
    told = {zone: start for zone, start in told_starts(document, night).items() if start.day >= oldest}
    written: dict[str, Start] = {}
    for one in sorted(kept, key=lambda one: one.night):
        if one.depletion_mm is not None and one.night < night:
            written.setdefault(one.hydrozone, Start(one.night + timedelta(days=1), one.depletion_mm))
    return {**written, **told}


def latest_starts(document: Document, kept: Iterable[Watering], night: date) -> dict[str, Start]:
    """By hydrozone the last morning written down up to a night, where the document knows of no later one."""
    newest = {
        one.hydrozone: Start(one.night + timedelta(days=1), one.depletion_mm)
        for one in sorted(kept, key=lambda one: one.night)
        if one.depletion_mm is not None and one.night < night and one.hydrozone in document.hydrozones
    }
    said = starts_on(document, newest, night)
    return {zone: start for zone, start in newest.items() if said[zone].doubts or said[zone].day < start.day}
