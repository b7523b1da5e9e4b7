"""`pengan why FILE STATION`: what a station waited for, limit by limit."""

from __future__ import annotations

import click

from pengan.engine.document.document import Document
from pengan.engine.document.tables import Station
from pengan.terminal.ladder_page import ladder_page
from pengan.terminal.opening import open_document, stopped
from pengan.terminal.planning import day_of, plan, site_of
from pengan.words import _
from pengan.words.wordings import folded


@click.command()
@click.argument("file")
@click.argument("station")
@click.option("--date", "day", metavar="DATE", help="The date on which the night begins, such as 2026-11-25.")
@click.option("--now", metavar="MOMENT", help="What counts as now, such as 2026-11-25T23:30 on the site's clock.")
@click.option("--effort", type=click.IntRange(1, 1_000_000), help="How many orders of the runs to try.")
def why(file: str, station: str, day: str | None, now: str | None, effort: int | None) -> None:
    """Tell why STATION (its number, name or id) runs when it does: the earliest time each limit allowed."""
    document = open_document(file)
    found = _station(document, station)
    site = site_of(document, now)
    sheet = plan(site, day_of(site, day), effort)
    click.echo("\n".join(ladder_page(site.view(sheet), found)))


def _station(document: Document, wanted: str) -> Station:
    """By number, then id, then name; case and accents do not matter."""
    for key in ("number", "id", "name"):
        found = [item for item in document.stations.values() if folded(getattr(item, key)) == folded(wanted)]
        if len(found) == 1:
            return found[0]
        if found:
            numbers = ", ".join(item.number for item in found)
            raise stopped(
                _("Several stations are called {name}: {numbers}. Give a number.", name=wanted, numbers=numbers)
            )
    raise stopped(_("There is no station {name} in this document.", name=wanted))
