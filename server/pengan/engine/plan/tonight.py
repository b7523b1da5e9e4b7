"""What there is to plan a night from: the site's records, the night, the clock on the wall and the place of the sun."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from ..clock.instants import Instant
from ..clock.nights import Night
from ..clock.sun import Place
from ..clock.times import moment_on
from ..clock.zones import SiteClock
from ..document.document import Document
from ..need.site.nights import SiteNeeds, needs_on


@dataclass(frozen=True)
class Tonight:
    """One night of one site. Seconds are counted from `night.starts`."""

    document: Document
    night: Night
    clock: SiteClock
    place: Place | None

    @cached_property
    def length(self) -> int:
        """The night's real length in seconds."""
        return self.night.ends - self.night.starts

    @cached_property
    def needs(self) -> SiteNeeds:
        """What the plantings need tonight, for turns whose run time is worked out."""
        return needs_on(self.document, self.night.date)

    @property
    def dates(self) -> tuple[date, date]:
        """The two calendar dates that the night has a part of."""
        return self.night.date, self.night.date + timedelta(days=1)

    def second(self, instant: int) -> int:
        """An instant as a second of the night."""
        return instant - self.night.starts

    def instant(self, second: int) -> Instant:
        """A second of the night as an instant."""
        return Instant(self.night.starts + second)

    def moments(self, clock_time: str) -> list[int]:
        """The seconds at which a clock time comes on the night's two dates; may lie outside the night."""
        found = (moment_on(clock_time, day, self.clock, self.place) for day in self.dates)
        return [self.second(moment) for moment in found if moment is not None]

    def path(self, supply: str) -> tuple[str, ...]:
        """The supply and everything that feeds it, its source last."""
        nodes = [supply]
        while (parent := self.document.supplies[nodes[-1]].fed_by) is not None:
            nodes.append(parent)
        return tuple(nodes)
