"""`pengan need FILE`: what each planting needs on a night, the work behind a turn, a hydrozone's season."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import date

import click

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.nights import night_on
from pengan.engine.need.site.nights import needs_on
from pengan.engine.need.site.watered import told_starts
from pengan.engine.need.site.work import Season, TurnWork, season, turn_work
from pengan.engine.need.trace import as_rows, season_rows
from pengan.terminal.need_page import NeedView, needs_page, season_page, work_page
from pengan.terminal.opening import open_document, stopped
from pengan.terminal.planning import Site, day_of, site_of
from pengan.words import _, say
from pengan.words.names import SiteNames
from pengan.words.reader import current_reader
from pengan.words.wall import SiteWall


@click.command()
@click.argument("file")
@click.option("--date", "day", metavar="DATE", help="The date on which the night begins, such as 2026-11-25.")
@click.option("--now", metavar="MOMENT", help="What counts as now, such as 2026-11-25T23:30 on the site's clock.")
@click.option("--turn", metavar="ID", help="Show every number behind this turn's run time.")
@click.option("--hydrozone", metavar="ID", help="Show this hydrozone's days, from what was last said of its soil.")
@click.option("--csv", "as_csv", is_flag=True, help="Print the work of a turn, or a season, as CSV in base units.")
def need(file: str, day: str | None, now: str | None, turn: str | None, hydrozone: str | None, as_csv: bool) -> None:
    """Work out how much water each planting of the site in FILE needs on a night, and why."""
    if turn is not None and hydrozone is not None:
        raise stopped(_("Ask for a turn or for a hydrozone, not for both."))
    if as_csv and turn is None and hydrozone is None:
        raise stopped(_("CSV is of a turn's work or of a hydrozone's season: add --turn or --hydrozone."))
    site = site_of(open_document(file), now)
    night = day_of(site, day)
    if turn is not None:
        _show_work(site, night, turn, as_csv)
    elif hydrozone is not None:
        _show_season(site, night, hydrozone, as_csv)
    else:
        _print(needs_page(_view(site, night), needs_on(site.document, night)))


def _show_work(site: Site, night: date, turn: str, as_csv: bool) -> None:
    found = _work(site, night, turn)
    _print([_csv(as_rows(found.figures))] if as_csv else work_page(_view(site, night), found))


def _work(site: Site, night: date, turn: str) -> TurnWork:
    if turn not in site.document.turns:
        raise stopped(_("There is no turn {name} in this document.", name=turn))
    found = turn_work(site.document, turn, night)
    if found is None:
        raise stopped(_("Turn {name} is set by hand: there is no work to show.", name=turn))
    return found


def _show_season(site: Site, night: date, hydrozone: str, as_csv: bool) -> None:
    found = _season(site, night, hydrozone)
    _print([_csv(season_rows(found.kept))] if as_csv else season_page(_view(site, night), found))


def _season(site: Site, night: date, hydrozone: str) -> Season:
    if hydrozone not in site.document.hydrozones:
        raise stopped(_("There is no hydrozone {name} in this document.", name=hydrozone))
    found = season(site.document, hydrozone, night, starts=told_starts(site.document, night))
    if found is None:
        raise stopped(
            _("No balance of hydrozone {name} can be kept; pengan need without --hydrozone says why.", name=hydrozone)
        )
    return found


def _view(site: Site, night: date) -> NeedView:
    try:
        shown = night_on(site.clock, night)
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    names = SiteNames(site.document, SiteWall(site.clock, shown.starts, shown.ends))
    return NeedView(site.document.site.name, night, names, current_reader())


def _csv(rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue().rstrip("\n")


def _print(lines: Iterable[str]) -> None:
    click.echo("\n".join(lines))
