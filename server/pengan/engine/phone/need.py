"""The water need worked out for the app, in the shapes of the server's answers; messages are not yet worded.

A phone does not know what past nights brought, but the document says what the soil lacked this morning: nights since
then count as watered as they were decided. A season begins where somebody last measured or guessed.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from ..document.document import Document
from ..need.site.nights import needs_on
from ..need.site.shapes import Shape, night_shape, season_shape, work_shape
from ..need.site.watered import told_starts
from ..need.site.weather import day_weather_on
from ..need.site.work import season, turn_work


def need_on_night(document: Document, given: Mapping[str, str]) -> Shape:
    """What every hydrozone needs on `night`, those watered by hand too."""
    night = date.fromisoformat(given["night"])
    return night_shape(needs_on(document, night, all_zones=True), day_weather_on(document, night))


def work_of_turn(document: Document, given: Mapping[str, str]) -> Shape | None:
    """The work behind `turn` on `night`; None where it is set by hand, or not there."""
    turn = given["turn"]
    found = turn_work(document, turn, date.fromisoformat(given["night"])) if turn in document.turns else None
    return None if found is None else work_shape(found)


def season_of_hydrozone(document: Document, given: Mapping[str, str]) -> Shape | None:
    """The days of `hydrozone` up to `night`; None where no balance can be kept, or it is not there."""
    zone, night = given["hydrozone"], date.fromisoformat(given["night"])
    if zone not in document.hydrozones:
        return None
    found = season(document, zone, night, starts=told_starts(document, night))
    return None if found is None else season_shape(found)
