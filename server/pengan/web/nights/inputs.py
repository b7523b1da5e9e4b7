"""What decides a night's sheet, as a fingerprint: where it has not changed, the sheet need not be worked out again.

Most edits change few nights, and names and notes change none; at noon only one of the fourteen nights is new.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import fields, replace
from datetime import date
from typing import Any

from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.plan.build import build

SILENT = frozenset({"name", "notes", "part", "planting", "reason", "by"})
"""Fields that people read and no plan depends on: a sheet speaks of records by their ids."""


class NightInputs:
    """The fingerprints of a document's nights. `planner` names the engine and the zone data that would plan them."""

    def __init__(self, document: Document, planner: str) -> None:
        self.clock = clock_of(document.site)
        self._planner = planner
        self._document = _without_words(document)

    def of(self, day: date) -> str:
        """The fingerprint of one night: of the problem built for the solver, and of what the sheet says besides."""
        night = night_on(self.clock, day)
        built = build(self._document, night, self.clock)
        said = (
            self._planner,
            _wall(self.clock, night),
            built.problem,
            built.dues,
            built.calendars,
            built.notices,
            built.shortfalls,
            built.closed,
            built.due_ml,
            sorted(self._document.supplies.items()),
        )
        return hashlib.sha256(repr(said).encode()).hexdigest()


def _wall(clock: SiteClock, night: Night) -> tuple[object, ...]:
    changes = clock.changes(night.starts, night.ends)
    return night.date, night.starts, night.ends, clock.name, clock.data_version, clock.offset(night.starts), changes


def _without_words(document: Document) -> Document:
    stripped: dict[str, Any] = {}
    for item in fields(document):
        held = getattr(document, item.name)
        if isinstance(held, Mapping):
            stripped[item.name] = {key: _silenced(record) for key, record in held.items()}
    return replace(document, site=_silenced(document.site), **stripped)


def _silenced(record: Any) -> Any:
    return replace(record, **{item.name: "" for item in fields(record) if item.name in SILENT})
