"""A night for a person to read: next water first, then by place, then what did not fit and why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pengan.engine.document.document import Document
from pengan.engine.plan.sheet import Bound, NightSheet, Run, Shortfall
from pengan.words import Reader, _, isolate, ngettext, say, write, write_date, write_duration
from pengan.words.names import SiteNames
from pengan.words.wall import FIRST, SiteWall

from .columns import in_columns

_FIGURES = frozenset({0, 1, 3, 4, 5})
"""The columns of the list that hold times and amounts, flush at their end."""

_NAMED = 3
"""How many open stations are named; more are counted."""


@dataclass(frozen=True, slots=True)
class View:
    """A sheet, and what is needed to read it. `now` is the instant that "next" counts from."""

    sheet: NightSheet
    document: Document
    wall: SiteWall
    reader: Reader
    now: int

    @property
    def names(self) -> SiteNames:
        """The document's names."""
        return SiteNames(self.document, self.wall)

    def station(self, record: str) -> str:
        """A station as the crew calls it."""
        return isolate(self.names.name("station", record), self.reader)

    def part(self, record: str) -> str:
        """The part of the site a station lies in, as people typed it; empty where nobody said."""
        station = self.document.stations.get(record)
        return station.part if station else ""

    def time(self, instant: int) -> str:
        """A time of tonight, with its offset where tonight's clock changes."""
        shown = self.wall.time(instant, self.reader)
        return f"{shown} {self.wall.offset(instant)}" if self.wall.changes else shown


def night_page(view: View) -> Iterator[str]:
    """The whole page, a line at a time."""
    yield from _head(view)
    yield from _next_water(view)
    yield from _finish(view)
    yield from _places(view)
    yield from _shortfalls(view)
    yield from _notices(view)
    yield ""
    yield caution()


def _head(view: View) -> Iterator[str]:
    sheet, reader = view.sheet, view.reader
    site = isolate(view.document.site.name, reader)
    yield _("{site}: night of {date}", site=site, date=write_date(sheet.night, reader, "full"))
    if not view.wall.changes:
        yield _("Local time of {zone}, UTC{offset}.", zone=sheet.zone, offset=view.wall.offset(sheet.starts))
        return
    yield _("Local time of {zone}. The clock changes tonight, so times carry their offset.", zone=sheet.zone)
    if any(FIRST in view.wall.mark(change.at - 1) for change in view.wall.changes):
        yield _("Where an hour comes twice, ¹ is the first and ² the second.")


def _next_water(view: View) -> Iterator[str]:
    yield ""
    coming = [run for run in view.sheet.runs if run.start > view.now]
    if coming:
        yield _next(view, min(coming, key=lambda run: (run.start, run.station)))
    elif view.sheet.runs:
        yield _("No more water this night.")
    else:
        yield _("No water this night.")
    yield from _open_now(view)


def _open_now(view: View) -> Iterator[str]:
    open_now = [run for run in view.sheet.runs if run.start <= view.now < run.end]
    if len(open_now) > _NAMED:
        last = max(run.end for run in open_now)
        yield _("Water now at {count} stations; the last closes {time}.", count=len(open_now), time=view.time(last))
        return
    for run in open_now:
        yield _("Water now: {station}, until {time}.", station=view.station(run.station), time=view.time(run.end))


def _next(view: View, run: Run) -> str:
    when = view.time(run.start)
    if view.wall.day(run.start) != view.wall.day(view.now):
        when = _("{date} {time}", date=write_date(view.wall.day(run.start), view.reader, "weekday"), time=when)
    station, part = view.station(run.station), view.part(run.station)
    if not part:
        return _("Next water {time}, {station}.", time=when, station=station)
    return _("Next water {time}, {station}, {part}.", time=when, station=station, part=isolate(part, view.reader))


def _finish(view: View) -> Iterator[str]:
    sheet = view.sheet
    if sheet.finish is not None:
        yield _("The night finishes {time}.", time=view.time(sheet.finish))
    if sheet.bound is not None and sheet.runs:
        yield from _bound(view, sheet.bound)
    yield _water(view)
    if sheet.moved_pct is not None:
        moved = view.reader.gettext("{figure} %", figure=round(sheet.moved_pct, 1))
        yield _("{share} of the runs moved by more than ten minutes.", share=moved)


def _bound(view: View, held: Bound) -> Iterator[str]:
    """What decides the end, and what more of it would bring. Where not all fits, no earliest end can be told."""
    decides = say(held.relief or held.holder, view.reader, view.names)
    if view.sheet.shortfalls:
        yield decides
    elif view.sheet.finish == held.at:
        yield _("It cannot finish sooner. {decides}", decides=decides)
    else:
        yield _("It could not finish before {time}. {decides}", time=view.time(held.at), decides=decides)


def _water(view: View) -> str:
    """How much water, and how much was due where that is more."""
    sheet, count = view.sheet, len(view.sheet.runs)
    volume, due = write("volume", sheet.volume_l, view.reader), write("volume", sheet.volume_due_l, view.reader)
    if not sheet.shortfalls:
        return ngettext("{volume} in {count} run.", "{volume} in {count} runs.", count, volume=volume)
    return ngettext(
        "{volume} in {count} run, of {due} due.",
        "{volume} in {count} runs, of {due} due.",
        count,
        volume=volume,
        due=due,
    )


def _places(view: View) -> Iterator[str]:
    """The runs, place by place; places in the order of their first water."""
    by_part: dict[str, list[Run]] = {}
    for run in sorted(view.sheet.runs, key=lambda run: (run.start, run.station)):
        by_part.setdefault(view.part(run.station), []).append(run)
    rows = [[*_headings()], *(_row(view, run) for runs in by_part.values() for run in runs)]
    lines = iter(in_columns(rows, right=_FIGURES))
    heading = next(lines)
    for part, runs in by_part.items():
        yield ""
        yield isolate(part, view.reader) if part else _("Places without a name")
        yield f"  {heading}"
        yield from (f"  {next(lines)}" for _run in runs)


def _headings() -> tuple[str, ...]:
    return _("Opens"), _("Closes"), _("Station"), _("Run time"), _("Flow"), _("Water"), _("Program"), _("Cycle")


def _row(view: View, run: Run) -> tuple[str, ...]:
    reader = view.reader
    return (
        view.time(run.start),
        view.time(run.end),
        view.station(run.station),
        write_duration(run.end - run.start, reader),
        write("flow", run.flow_lpm, reader),
        write("volume", run.volume_l, reader),
        _program(view, run),
        _("{cycle} of {cycles}", cycle=run.cycle, cycles=run.cycles) if run.cycles > 1 else "",
    )


def _program(view: View, run: Run) -> str:
    if run.program is None:
        return _("asked for")
    program = view.document.programs.get(run.program)
    named = " ".join(part for part in (program.letter, program.name) if part) if program else run.program
    return isolate(named, view.reader)


def _shortfalls(view: View) -> Iterator[str]:
    if not view.sheet.shortfalls:
        return
    yield ""
    yield _("Did not fit")
    for short in view.sheet.shortfalls:
        yield f"  {shortfall_line(view, short)}"


def shortfall_line(view: View, short: Shortfall) -> str:
    """One station's missing water and the reason."""
    return _(
        "{station}: {volume} short. {reason}",
        station=view.station(short.station),
        volume=write("volume", short.volume_l, view.reader),
        reason=say(short.why, view.reader, view.names),
    )


def _notices(view: View) -> Iterator[str]:
    if not view.sheet.notices:
        return
    yield ""
    yield _("Worth knowing")
    for notice in view.sheet.notices:
        yield f"  {say(notice, view.reader, view.names)}"


def caution() -> str:
    """Said wherever a plan is shown. What depends on the night, like reclaimed water, is in its notices."""
    return _(
        "Caution: this is the plan, not the valve. Before working on pipes, heads or cabinets, make sure that water "
        "and power are off, and follow local codes and licensed practice."
    )
