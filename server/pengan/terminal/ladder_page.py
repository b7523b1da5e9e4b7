"""Why a station runs when it does: the earliest time each limit allowed, the last one deciding."""

from __future__ import annotations

from collections.abc import Iterator

from pengan.engine.document.tables import Station
from pengan.engine.plan.sheet import Run, Rung
from pengan.words import _, say, write_date

from .columns import in_columns
from .night_page import View, caution, shortfall_line


def ladder_page(view: View, station: Station) -> Iterator[str]:
    """Each run of the station this night with its ladder, and what did not fit."""
    runs = sorted((run for run in view.sheet.runs if run.station == station.id), key=lambda run: run.start)
    shortfalls = [short for short in view.sheet.shortfalls if short.station == station.id]
    night = write_date(view.sheet.night, view.reader, "full")
    yield _("{station}, night of {date}", station=view.station(station.id), date=night)
    for run in runs:
        yield ""
        yield from _ladder(view, run)
    for short in shortfalls:
        yield ""
        yield shortfall_line(view, short)
    if not runs and not shortfalls:
        yield _("Nothing is due here this night: no program with this station runs, and nobody asked for it.")
    yield ""
    yield caution()


def _ladder(view: View, run: Run) -> Iterator[str]:
    yield _opening(view, run)
    rungs = sorted(run.ladder, key=lambda rung: rung.at)
    yield from (f"  {line}" for line in in_columns([_rung(view, rung, rungs) for rung in rungs], frozenset({0})))


def _opening(view: View, run: Run) -> str:
    opens, closes = view.time(run.start), view.time(run.end)
    reason = say(run.why, view.reader, view.names)
    if run.cycles == 1:
        return _("Opens {opens}, closes {closes}. {reason}", opens=opens, closes=closes, reason=reason)
    return _(
        "Opens {opens}, closes {closes} (cycle {cycle} of {cycles}). {reason}",
        opens=opens, closes=closes, cycle=run.cycle, cycles=run.cycles, reason=reason,
    )  # fmt: skip


def _rung(view: View, rung: Rung, rungs: list[Rung]) -> tuple[str, ...]:
    text = say(rung.why, view.reader, view.names)
    decides = rung is rungs[-1] and len(rungs) > 1
    return view.time(rung.at), _("{limit} This decides.", limit=text) if decides else text
