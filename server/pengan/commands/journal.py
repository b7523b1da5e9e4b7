"""`pengan journal FILE`: entries for a site's journal out of a CSV file."""

from __future__ import annotations

import time
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from pengan.terminal.opening import open_bytes, stopped
from pengan.words import _, ngettext, say

if TYPE_CHECKING:
    from pengan.web.journal.bringing import Brought
    from pengan.web.problems import Problem

MOST_TOLD = 20


@click.command()
@click.argument("file")
@click.option("--site", required=True, metavar="ID", help="The site's id.")
@click.option("--column", multiple=True, metavar="FIELD=HEADING", help="The heading of a field's column.")
@click.option("--unit", multiple=True, metavar="FIELD=UNIT", help="The unit of a field's figures, such as count_l=m3.")
@click.option("--always", multiple=True, metavar="FIELD=VALUE", help="What is so in every line, such as kind=count.")
def journal(file: str, site: str, column: Sequence[str], unit: Sequence[str], always: Sequence[str]) -> None:
    """Read the entries in FILE, a CSV file, into a site's journal; what is in it already stays as it is."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.journal.bringing import bring_here, mapped_of
    from pengan.web.problems import Problem
    from pengan.web.system.opening import open_database, settings_here

    try:
        mapped, content = mapped_of(column, unit, always), open_bytes(file)
        with open_database(settings_here()) as database, database.session() as session:
            brought = bring_here(session, site, content, mapped, int(time.time()))
    except Problem as problem:
        raise stopped(_told(problem)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    _tell(brought)
    if brought.aside:
        raise SystemExit(1)


def _told(problem: Problem) -> str:
    """Every fault, one a line; where none is named, what is said of the whole."""
    return "\n".join(say(fault.message) for fault in problem.fields) or say(problem.message)


def _tell(brought: Brought) -> None:
    """What is wrong goes to the error stream, what became of the lines to the other."""
    if brought.left_out:
        click.echo(_("Columns that are not read: {names}", names=", ".join(brought.left_out)), err=True)
    for one in brought.lines[:MOST_TOLD]:
        told = "; ".join(f"{fault.field}: {say(fault.message)}" for fault in one.faults)
        click.echo(_("Line {number}: {what}", number=one.line, what=told), err=True)
    if brought.aside > MOST_TOLD:
        more = brought.aside - MOST_TOLD
        click.echo(ngettext("And {count} more line.", "And {count} more lines.", more), err=True)
    click.echo(
        _(
            "New entries: {new}. Known already: {known}. Kept aside: {aside}.",
            new=brought.taken, known=brought.known, aside=brought.aside,
        )
    )  # fmt: skip
