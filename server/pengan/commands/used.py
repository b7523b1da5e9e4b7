"""`pengan used SITE`: what a site used, planned, delivered and lost, over some nights."""

from __future__ import annotations

import os
import time
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from pengan.engine.clock.instants import Instant
from pengan.terminal.opening import STANDARD_INPUT, stopped
from pengan.terminal.used_page import BY, UsedView, used_page
from pengan.words import WordsFault, _, current_reader, say
from pengan.words.moments import read_date

if TYPE_CHECKING:
    from pengan.web.used.operations import By, Used

STANDARD_OUTPUT = STANDARD_INPUT
Span = tuple[date | None, date | None]


@click.command()
@click.argument("site")
@click.option("--month", metavar="MONTH", help="The nights of one month, such as 2026-07.")
@click.option("--from", "first", metavar="DATE", help="The first night. Without it the year's first.")
@click.option("--to", "last", metavar="DATE", help="The last night. Without it last night.")
@click.option("--by", type=click.Choice(tuple(BY)), default="month", help="What the lines are put together by.")
@click.option("--csv", "table", metavar="FILE", help="Write the table as CSV in litres into FILE; - prints it.")
def used(site: str, month: str | None, first: str | None, last: str | None, by: str, table: str | None) -> None:
    """Show what SITE (its id) used: planned, delivered and lost water, its meters, and what faults cost."""
    if month is not None and (first is not None or last is not None):
        raise stopped(_("Ask for a month or for a span of nights, not for both."))
    if table not in (None, STANDARD_OUTPUT) and Path(str(table)).exists():
        raise stopped(_("{path} exists already and was left as it is.", path=str(table)))
    span = (_day(first), _day(last))
    found = _found(site, None if month is None else _month(month), span, by)
    if table is None:
        _print(found)
    else:
        _write(found, table)


def _day(typed: str | None) -> date | None:
    try:
        return None if typed is None else read_date(typed)
    except WordsFault as fault:
        raise stopped(say(fault.message)) from None


def _month(typed: str) -> date:
    try:
        return date.fromisoformat(f"{typed.strip()}-01")
    except ValueError:
        raise stopped(_("{text} is no month. Write it like {example}.", text=typed, example="2026-07")) from None


def _found(site: str, month: date | None, span: Span, by: str) -> Used:
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.problems import Problem
    from pengan.web.system.opening import open_database, settings_here
    from pengan.web.used.on_the_server import used_between, used_in_month

    settings, kind = settings_here(), cast("By", by)
    now = Instant(int(settings.now.timestamp() if settings.now else time.time()))
    try:
        with open_database(settings) as database, database.session() as session:
            if month is not None:
                return used_in_month(session, site, month, kind, now)
            return used_between(session, site, *span, kind, now)
    except Problem as problem:
        raise stopped(say(problem.message)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None


def _print(found: Used) -> None:
    from pengan.web.used.shown import used_shown

    reader = current_reader()
    view = UsedView(found.document.site.name, used_shown(found, reader), found.names.name, reader)
    click.echo("\n".join(used_page(view)))


def _write(found: Used, table: str) -> None:
    """The same file as the page's; lines end as RFC 4180 has it, also where it is printed."""
    from pengan.web.used.shown import used_table

    content = used_table(found).encode()
    if table == STANDARD_OUTPUT:
        click.echo(content, nl=False)
        return
    try:
        Path(table).write_bytes(content)
    except OSError as fault:
        raise stopped(
            _("{path} cannot be written: {reason}", path=table, reason=os.strerror(fault.errno or 0))
        ) from None
    click.echo(_("What was used is in {path}.", path=table))
