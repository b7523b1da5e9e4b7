"""A place has both coordinates, and whatever goes by the sun needs a place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from ...message import saying
from ..draft import Drafts
from ..fault import Fault
from ..fields import kind_of
from ..tables import TABLES
from ..written import of_the_sun

HALF = saying("fault.half_place", "A place needs both a latitude and a longitude.")
NOWHERE = saying("fault.sun_without_place", "{given} needs the site's latitude and longitude.")

CLOCK_FIELDS = {
    table.table: tuple(item.name for item in fields(table) if kind_of(item).name == "clock") for table in TABLES
}


def faults(drafts: Drafts) -> Iterator[Fault]:
    """A site with half a place; times by the sun on a site without one."""
    placed = True
    for site in drafts.of("site"):
        missing = [field for field in ("latitude_deg", "longitude_deg") if not site.has(field)]
        placed = placed and not missing
        if len(missing) == 1:
            yield site.fault(missing[0], HALF())
    if not placed:
        yield from _by_the_sun(drafts)


def _by_the_sun(drafts: Drafts) -> Iterator[Fault]:
    for draft in drafts.all:
        for field in CLOCK_FIELDS[draft.table]:
            if of_the_sun(draft.text(field)):
                yield draft.fault(field, NOWHERE(given=draft.text(field)))
