"""The water need for a person to read: what is decided for each planting, the work behind a turn, a season's days."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from pengan.engine.message import Message
from pengan.engine.need.minutes import RunTime
from pengan.engine.need.site.nights import SiteNeeds, ZoneNeed
from pengan.engine.need.site.work import Season, TurnWork
from pengan.engine.need.tonight import CAUTION
from pengan.engine.need.trace import Figure
from pengan.words import (
    Reader,
    _,
    isolate,
    ngettext,
    say,
    write,
    write_date,
    write_duration,
    write_figure,
    write_percent,
)
from pengan.words.names import SiteNames

from .columns import in_columns

NONE = "—"
_FIGURES = frozenset({1})
_DEPTHS = frozenset({1, 3, 4, 5, 6, 7})


@dataclass(frozen=True, slots=True)
class NeedView:
    """A night of a site, and who reads about it."""

    site: str
    night: date
    names: SiteNames
    reader: Reader

    def named(self, kind: str, record: str) -> str:
        """A record as people call it."""
        return isolate(self.names.name(kind, record), self.reader)

    def said(self, message: Message) -> str:
        """A message in the reader's language."""
        return say(message, self.reader, self.names)


def needs_page(view: NeedView, needs: SiteNeeds) -> Iterator[str]:
    """Every planting's decision with the runs it makes."""
    yield from _head(view, isolate(view.site, view.reader))
    if not needs.zones:
        yield _("No turn of this site goes by need: all run times are set by hand.")
    for zone in needs.zones.values():
        yield ""
        yield from _zone(view, zone)
    yield from _told(view, needs.messages)
    yield from _caution(view)


def _head(view: NeedView, what: str) -> Iterator[str]:
    yield _("{site}: night of {date}", site=what, date=write_date(view.night.isoformat(), view.reader, "full"))


def _zone(view: NeedView, zone: ZoneNeed) -> Iterator[str]:
    if zone.need is None:
        yield _("{hydrozone}: nothing could be worked out.", hydrozone=view.named("hydrozone", zone.hydrozone))
        return
    yield view.said(zone.need.decision.message)
    rows = [_run(view, run) for run in zone.need.runs]
    yield from (f"  {line}" for line in in_columns(rows, frozenset({1, 2})))
    for message in (message for run in zone.need.runs for message in run.messages):
        yield f"  {view.said(message)}"


def _run(view: NeedView, run: RunTime) -> tuple[str, ...]:
    cycles = ngettext("{count} cycle", "{count} cycles", run.wanted.cycles)
    return (
        view.named("station", run.rate.station),
        write("depth", run.gross_mm, view.reader),
        write_duration(run.wanted.run_s, view.reader),
        cycles,
    )


def work_page(view: NeedView, work: TurnWork) -> Iterator[str]:
    """The way from weather to minutes, a figure a line, with where each is from."""
    yield from _head(view, view.named("turn", work.turn))
    if work.decision is not None:
        yield view.said(work.decision)
    yield ""
    yield from in_columns([_figure(view, figure) for figure in work.figures], _FIGURES)
    yield from _told(view, work.messages)
    yield from _caution(view)


def _figure(view: NeedView, figure: Figure) -> tuple[str, ...]:
    origin = ", ".join(part for part in (figure.source, figure.rung, figure.row) if part)
    return say(figure.name, view.reader), written(figure, view.reader), origin


def written(figure: Figure, reader: Reader) -> str:
    """A figure with its unit."""
    if figure.value is None:
        return NONE
    value = float(figure.value)
    match figure.unit:
        case "mm":
            return write("depth", value, reader)
        case "mm_per_h":
            return _("{depth} an hour", depth=write("depth", value, reader))
        case "s":
            return write_duration(value, reader)
        case "pct":
            return write_percent(value, reader)
        case "mps":
            return write("speed", value, reader)
        case "mj_per_m2":
            return write("radiation", value, reader)
        case "kpa":
            return reader.gettext("{figure} kPa", figure=write_figure(value, 3, reader))
        case "kpa_per_c":
            return _("{figure} kPa/°C", figure=write_figure(value, 3, reader))
    return write_figure(value, 3, reader)


def season_page(view: NeedView, season: Season) -> Iterator[str]:
    """A hydrozone's days: reference and its rung, rain, water given, taken, and what the soil lacks."""
    yield from _head(view, view.named("hydrozone", season.hydrozone))
    yield ""
    yield from in_columns([_headings(), *_days(view, season)], _DEPTHS)
    yield from _told(view, season.messages)
    yield from _caution(view)


def _headings() -> tuple[str, ...]:
    return (
        _("Day"), _("Reference"), _("Rung"), _("Need"), _("Rain"), _("Given"), _("Taken"), _("Lacking"),
    )  # fmt: skip


def _days(view: NeedView, season: Season) -> Iterator[tuple[str, ...]]:
    kept = season.kept
    for number, (day, out, reference) in enumerate(zip(kept.days, kept.outs, season.references, strict=True)):
        depths = (day.demand_mm, day.rain_mm, day.watering.applied_mm, out.taken_mm, out.depletion_mm)
        yield (
            write_date((kept.first + timedelta(days=number)).isoformat(), view.reader, "weekday"),
            NONE if reference.et_mm is None else write("depth", reference.et_mm, view.reader),
            reference.rung,
            *(write("depth", depth, view.reader) for depth in depths),
        )


def _told(view: NeedView, messages: Iterable[Message]) -> Iterator[str]:
    told = list(dict.fromkeys(view.said(message) for message in messages))
    if told:
        yield ""
        yield _("Worth knowing")
        yield from (f"  {line}" for line in told)


def _caution(view: NeedView) -> Iterator[str]:
    yield ""
    yield view.said(CAUTION())
