"""`pengan night FILE`: one night's runs, for a person or as JSON."""

from __future__ import annotations

import click

from pengan.engine.plan.sheet_json import dumps
from pengan.terminal.night_page import night_page
from pengan.terminal.opening import open_document, open_sheet
from pengan.terminal.planning import day_of, plan, site_of


@click.command()
@click.argument("file")
@click.option("--date", "day", metavar="DATE", help="The date on which the night begins, such as 2026-11-25.")
@click.option("--now", metavar="MOMENT", help="What counts as now, such as 2026-11-25T23:30 on the site's clock.")
@click.option("--before", metavar="SHEET", help="The sheet this night had before an edit, so that little moves.")
@click.option("--effort", type=click.IntRange(1, 1_000_000), help="How many orders of the runs to try.")
@click.option(
    "--json", "as_json", is_flag=True, help="Print the night sheet as JSON; pengan schema sheet describes it."
)
def night(file: str, day: str | None, now: str | None, before: str | None, effort: int | None, as_json: bool) -> None:
    """Work out one night of the site in FILE and print when each station runs, and why."""
    site = site_of(open_document(file), now)
    sheet = plan(site, day_of(site, day), effort, None if before is None else open_sheet(before))
    click.echo(dumps(sheet) if as_json else "\n".join(night_page(site.view(sheet))))
