"""What decides a night's sheet, as a fingerprint: where it has not changed, the sheet need not be worked out again.

Most edits change few nights, and names and notes change none; at noon only one of the fourteen nights is new.
"""

from __future__ import annotations

import hashlib
from dataclasses import fields, replace
from datetime import date
from typing import Any

from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.plan.build import Built, build

SILENT = frozenset({"name", "notes", "part", "planting", "reason", "by", "latitude_deg", "longitude_deg"})
"""Fields that people read and no plan depends on: a sheet speaks of records by their ids."""


class NightInputs:
    """The fingerprints of a document's nights. `planner` names the engine and the zone data that would plan them."""

    def __init__(self, document: Document, planner: str) -> None:
        self.clock = clock_of(document.site)
        self._planner = planner
        self._document = document
        self._supplies = [_silenced(document.supplies[key]) for key in sorted(document.supplies)]
        self._quiet: dict[int, object] = {}

    def of(self, day: date) -> str:
        """The fingerprint of one night."""
        return self.of_built(self.built(day))

    def built(self, day: date) -> Built:
        """A night ready to be solved."""
        return build(self._document, night_on(self.clock, day), self.clock)

    def of_built(self, built: Built) -> str:
        """The fingerprint of a night that was built: of the problem for the solver, and of what the sheet says besides.

        Raises nothing. `built` has to be of this document.
        """
        said = (
            self._planner,
            _wall(self.clock, built.tonight.night),
            built.problem,
            [replace(due, station=self._still(due.station), program=self._still(due.program)) for due in built.dues],
            [
                replace(
                    calendar, shut=tuple(replace(shut, closure=self._still(shut.closure)) for shut in calendar.shut)
                )
                for calendar in built.calendars
            ],
            built.notices,
            built.shortfalls,
            built.closed,
            built.due_ml,
            self._supplies,
        )
        return hashlib.sha256(repr(said).encode()).hexdigest()

    def _still(self, record: Any) -> Any:
        """A record without what people read of it, made once for all the nights."""
        if record is None:
            return None
        if id(record) not in self._quiet:
            self._quiet[id(record)] = _silenced(record)
        return self._quiet[id(record)]


def _wall(clock: SiteClock, night: Night) -> tuple[object, ...]:
    changes = clock.changes(night.starts, night.ends)
    return night.date, night.starts, night.ends, clock.name, clock.data_version, clock.offset(night.starts), changes


def _silenced(record: Any) -> Any:
    return replace(record, **{item.name: "" for item in fields(record) if item.name in SILENT})
