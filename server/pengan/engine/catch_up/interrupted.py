"""When each station may run for the rest of a night: its calendar, less the outages, less what is over.

An outage is a closure of what it concerns: lost power of the controller's stations, a shut main of all that hangs on
it, a stop of the whole site. After one of its source, a source needs its lead time again to fill the pipes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..journal.outages import FOREVER, Outages
from ..message import Message, saying
from ..plan.calendars import Calendar, Calendars
from ..plan.dues import Due
from ..plan.problem import Span
from ..plan.spans import common, merged, rest_of, without
from ..plan.tonight import Tonight

FROM_NOW = saying("why.from_now", "The rest of the night is worked out anew from {from_at} on.")
POWER_BACK = saying("why.power_back", "Waits until {controller} has its power back.")
SITE_POWER_BACK = saying("why.site_power_back", "Waits until there is power again.")
SUPPLY_FREED = saying("why.supply_freed", "Waits until {supply} gives water again.")
STOP_LIFTED = saying("why.stop_lifted", "Waits until the stop of all watering is lifted.")


class Interrupted:
    """The calendars of the rest of a night from the second `now` on, each made once for all stations that share it."""

    def __init__(self, tonight: Tonight, outages: Outages, now: int) -> None:
        self.tonight, self.now = tonight, now
        self._calendars = Calendars(tonight)
        self._power = {cabinet: self._seconds(spans) for cabinet, spans in outages.power.items()}
        self._shut = {supply: self._seconds(spans) for supply, spans in outages.shut.items()}
        self._stopped = self._seconds(outages.stopped)
        self._made: dict[tuple[int, str | None, str], Calendar] = {}

    def of(self, due: Due) -> Calendar:
        """The calendar of one due turn; nothing of its spans lies before now."""
        calendar, station = self._calendars.of(due), due.station
        key = id(calendar), station.controller, station.supply
        if key not in self._made:
            self._made[key] = self._cut(calendar, station.controller, station.supply)
        return self._made[key]

    def _cut(self, calendar: Calendar, controller: str | None, supply: str) -> Calendar:
        length = self.tonight.length
        causes = self._causes(controller, supply)
        dry = merged([*(span for spans, _ in causes for span in spans), (0, min(self.now, length))])
        filled = self._filled(calendar, supply)
        spans = calendar.spans if filled is None else common(calendar.spans, filled)
        freed = sorted(
            [(end, said) for spans, said in causes for _, end in spans if end < length]
            + [(self.now, FROM_NOW(from_at=self.tonight.instant(self.now)))],
            key=lambda one: one[0],
        )
        edges = {*calendar.edges, *(second for second, _ in freed), *(start for start, _ in filled or ())}
        return replace(
            calendar,
            spans=tuple(without(spans, dry, length)),
            filled=None if filled is None else tuple(filled),
            edges=tuple(sorted(edges)),
            freed=tuple(freed),
        )

    def _causes(self, controller: str | None, supply: str) -> list[tuple[Sequence[Span], Message]]:
        power = POWER_BACK(controller=controller) if controller is not None else SITE_POWER_BACK()
        return [
            (self._power.get(controller, ()), power),
            (self._shut.get(supply, ()), SUPPLY_FREED(supply=supply)),
            (self._stopped, STOP_LIFTED()),
        ]

    def _filled(self, calendar: Calendar, supply: str) -> list[Span] | None:
        """Where the source has filled the pipes, again after each outage of its own; None if it needs no time."""
        if calendar.filled is None:
            return None
        source = self.tonight.path(supply)[-1]
        lead = self.tonight.document.supplies[source].lead_s
        out = merged([*self._shut.get(source, ()), *self._power.get(None, ()), *self._stopped])
        given = common(self._calendars.source_open(source), rest_of(out, self.tonight.length))
        return [(start + lead, end) for start, end in given if start + lead < end]

    def _seconds(self, spans: Sequence[Span]) -> list[Span]:
        """The part of the spans that lies in the night."""
        length = self.tonight.length
        found = (
            (self.tonight.second(start), length if end == FOREVER else self.tonight.second(end)) for start, end in spans
        )
        return merged((max(0, start), min(end, length)) for start, end in found)
