"""The site's clock for a person to read: each change to come, and what it does to the nights around it."""

from __future__ import annotations

from collections.abc import Iterator

from pengan.engine.clock.effects import Effect, effects
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.rules import DAY_S
from pengan.engine.clock.sun import place_of
from pengan.engine.clock.times import moment_on
from pengan.words import Reader, _, isolate, ngettext, say, write_date, write_duration, write_time
from pengan.words.moments import write_offset
from pengan.words.names import SiteNames
from pengan.words.reader import current_reader
from pengan.words.wall import SiteWall

from .planning import Site

_YEAR_S = 366 * DAY_S


def clock_page(site: Site, years: int) -> Iterator[str]:
    """The whole page, a line at a time: the clock, then a paragraph for each change from tonight on.

    Raises `ClockFault` for a moment outside the nights that can be worked out.
    """
    reader, tonight = current_reader(), night_at(site.clock, site.now)
    yield from _head(site, reader)
    found = list(effects(site.document, site.clock, tonight.starts, tonight.starts + years * _YEAR_S))
    if not found:
        yield ""
        yield ngettext(
            "The clock does not change in the next year.", "The clock does not change in the next {count} years.", years
        )
    for effect in found:
        yield ""
        yield from _paragraph(site, effect, reader)


def _head(site: Site, reader: Reader) -> Iterator[str]:
    clock, name = site.clock, isolate(site.document.site.name, reader)
    if clock.data_version:
        yield _(
            "{site}: local time of {zone}, zone data {version}.", site=name, zone=clock.name, version=clock.data_version
        )
    else:
        yield _("{site}: a clock of its own, {rule}", site=name, rule=isolate(clock.name, reader))
    now = clock.wall(site.now)
    yield _(
        "It is {time} on {date}, UTC{offset}.",
        time=write_time(now, reader, seconds=False),
        date=write_date(now.date(), reader, "long"),
        offset=write_offset(clock.offset(site.now)),
    )
    yield from _sun(site, reader)


def _sun(site: Site, reader: Reader) -> Iterator[str]:
    """Today's sunrise and sunset where the site says where it is, and the method behind them."""
    place, today = place_of(site.document.site), site.clock.wall(site.now).date()
    if place is None:
        return
    up, down = (moment_on(event, today, site.clock, place) for event in ("sunrise", "sunset"))
    if up is None or down is None:
        yield _("The sun does not both rise and set there today.")
        return
    times = {"sunrise": write_time(site.clock.wall(up), reader), "sunset": write_time(site.clock.wall(down), reader)}
    yield _("Today the sun rises at {sunrise} and sets at {sunset} (NOAA's method, level horizon).", **times)


def _paragraph(site: Site, effect: Effect, reader: Reader) -> Iterator[str]:
    yield _what(effect, reader)
    yield "  " + _span(effect, reader)
    for line in _nights(effect, reader):
        yield "  " + line
    wall = SiteWall(site.clock, effect.night.starts, effect.night.ends)
    for message in effect.touched:
        yield "  " + say(message, reader, SiteNames(site.document, wall))


def _what(effect: Effect, reader: Reader) -> str:
    change = effect.change
    read = effect.first if change.step_s > 0 else effect.last
    shown = {
        "date": write_date(read.date(), reader, "full"),
        "time": write_time(read, reader),
        "step": write_duration(abs(change.step_s), reader),
        "before": write_offset(change.before_s),
        "after": write_offset(change.after_s),
    }
    if change.step_s > 0:
        return _("{date}: at {time} the clock goes forward by {step}, from UTC{before} to UTC{after}.", **shown)
    return _("{date}: at {time} the clock goes back by {step}, from UTC{before} to UTC{after}.", **shown)


def _span(effect: Effect, reader: Reader) -> str:
    first, last = write_time(effect.first, reader), write_time(effect.last, reader)
    if effect.change.step_s > 0:
        return _("Times from {first} up to {last} do not come.", first=first, last=last)
    return _("Times from {first} up to {last} come twice.", first=first, last=last)


def _nights(effect: Effect, reader: Reader) -> Iterator[str]:
    """The night of the change, and those before and after."""
    yield _(
        "The night of {date} lasts {duration}; the night before lasts {before} and the night after {after}.",
        date=write_date(effect.night.date, reader, "weekday"),
        duration=write_duration(effect.night.length_s, reader),
        before=write_duration(effect.before.length_s, reader),
        after=write_duration(effect.after.length_s, reader),
    )
