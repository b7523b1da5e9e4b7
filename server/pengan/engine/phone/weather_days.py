"""Days of the site's weather as the app lists them: each day's reference, its rung, and what is odd about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from ..document.document import Document
from ..need.ladder import ReferenceDay
from ..need.quality import Flag, series_flags
from ..need.site.nights import NO_PLACE
from ..need.site.weather import site_days, weather_by_day


def weather_days(document: Document, given: Mapping[str, str]) -> dict[str, object]:
    """The days from `first` to `last`. Where the site has no place, `messages` say so and no day has a reference."""
    first, last = date.fromisoformat(given["first"]), date.fromisoformat(given["last"])
    found = site_days(document, first, last)
    seen = [weather for day, weather in sorted(weather_by_day(document).items()) if first <= day <= last]
    series = series_flags(seen)
    return {
        "days": [_day(one, series) for one in (found.references if found else ())],
        "messages": [] if found else [NO_PLACE().as_json()],
    }


def _day(one: ReferenceDay, series: Sequence[Flag]) -> dict[str, object]:
    flags = (*one.flags, *(flag for flag in series if flag.day == one.day))
    return {
        "day": one.day.isoformat(),
        "et_mm": one.et_mm,
        "rung": one.rung,
        "source": one.source,
        "flags": [{**flag.message.as_json(), "fields": list(flag.fields), "barred": flag.barred} for flag in flags],
    }
