"""`pengan ahead FILE`: the nights to come, one line each."""

from __future__ import annotations

import click

from pengan.engine.plan.sheet_json import dumps
from pengan.terminal.ahead_page import ahead_page
from pengan.terminal.opening import open_document
from pengan.terminal.planning import day_of, plan_ahead, site_of


@click.command()
@click.argument("file")
@click.option("--days", type=click.IntRange(1, 366), default=14, show_default=True, help="How many nights.")
@click.option("--date", "day", metavar="DATE", help="The date of the first night, such as 2026-11-25.")
@click.option("--now", metavar="MOMENT", help="What counts as now, such as 2026-11-25T23:30 on the site's clock.")
@click.option("--effort", type=click.IntRange(1, 1_000_000), help="How many orders of the runs to try.")
@click.option("--json", "as_json", is_flag=True, help="Print the night sheets as JSON, one a line.")
def ahead(file: str, days: int, day: str | None, now: str | None, effort: int | None, as_json: bool) -> None:
    """Look ahead: when water starts and ends on each night to come, how much, and what does not fit."""
    site = site_of(open_document(file), now)
    sheets = plan_ahead(site, day_of(site, day), days, effort)
    lines = (dumps(sheet) for sheet in sheets) if as_json else ahead_page([site.view(sheet) for sheet in sheets])
    for line in lines:
        click.echo(line)
