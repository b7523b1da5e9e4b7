"""The runs of a night that is over as they came: what the soil's water is reckoned by.

Valves' openings and outages decide; where nothing was told of a run, the sheet is believed but for the outages. Litres
are the run's own by its time, so that a night as planned is its sheet to the last digit; meters and learned flows have
no say here, as a planting's depth goes by its stations' rates and by minutes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from ..document.document import Document
from ..plan.sheet import NightSheet, Run
from ..plan.water import litres
from .closings import with_closings
from .delivered import Delivered, Extra, delivered
from .entry import Entry
from .in_order import in_order


@dataclass(frozen=True, slots=True)
class Stretch:
    """A span in which water came to a station; instants, and litres exact to the millilitre."""

    station: str
    start: int
    end: int
    volume_l: float


def came(document: Document, sheet: NightSheet, entries: Iterable[Entry]) -> list[Run | Stretch]:
    """What came in a night that is over; a run that came as planned is the run itself.

    The document may be a later one than the sheet's: what it no longer knows is left out. Outages that began before
    the night have to be among the entries. A run that was planned beyond the night's end counts whole.
    """
    known = replace(sheet, runs=tuple(run for run in sheet.runs if run.station in document.stations))
    told, _closings = with_closings(document, known, in_order(entries))
    night = delivered(document, known, told, max([known.ends, *(run.end for run in known.runs)]))
    runs = [part for one in night.runs for part in _of_run(one)]
    return [*runs, *(part for extra in night.extras for part in _of_extra(extra))]


def _of_run(one: Delivered) -> Iterator[Run | Stretch]:
    run = one.run
    if one.wet == ((run.start, run.end),):
        yield run
        return
    for start, end in one.wet:
        yield _stretch(run.station, start, end, run.volume_l, run.end - run.start)


def _of_extra(one: Extra) -> Iterator[Stretch]:
    for start, end in one.wet:
        yield _stretch(one.opening.station, start, end, one.delivered_l, one.delivered_s)


def _stretch(station: str, start: int, end: int, volume_l: float, over_s: int) -> Stretch:
    """So much of a volume as its time has of the whole time."""
    return Stretch(station, start, end, litres(round(volume_l * 1000) * (end - start) // over_s))
