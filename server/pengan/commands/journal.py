"""`pengan journal FILE`: entries for a site's journal out of a CSV file."""

from __future__ import annotations

import csv
import time
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

import click

from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.fields import FIELDS, MOST_ENTRIES
from pengan.exchange.csv_folder import decode
from pengan.exchange.journal_csv import UNITS, Columns, Mapped, columns_of, entry_in, lines_of
from pengan.terminal.opening import open_bytes, stopped
from pengan.words import _, ngettext, say

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

MOST_TOLD = 20
Line = tuple[int, list[str]]
Tally = dict[str, int]


@click.command()
@click.argument("file")
@click.option("--site", required=True, metavar="ID", help="The site's id.")
@click.option("--column", multiple=True, metavar="FIELD=HEADING", help="The heading of a field's column.")
@click.option("--unit", multiple=True, metavar="FIELD=UNIT", help="The unit of a field's figures, such as count_l=m3.")
@click.option("--always", multiple=True, metavar="FIELD=VALUE", help="What is so in every line, such as kind=count.")
def journal(file: str, site: str, column: Sequence[str], unit: Sequence[str], always: Sequence[str]) -> None:
    """Read the entries in FILE, a CSV file, into a site's journal; what is in it already stays as it is."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.problems import Problem
    from pengan.web.sites.operations import document_of
    from pengan.web.system.opening import open_database, settings_here

    mapped = Mapped(_pairs(column), _units(_pairs(unit)), _pairs(always))
    lines, columns = _opened(file, mapped)
    try:
        with open_database(settings_here()) as database, database.session() as session:
            clock = clock_of(document_of(session, site).document.site)
            tally = _take(session, site, lines, columns, mapped, clock)
    except Problem as problem:
        raise stopped(say(problem.message)) from None
    except csv.Error as fault:
        raise stopped(_("{path} is not CSV: {reason}", path=file, reason=str(fault))) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    click.echo(
        _(
            "New entries: {new}. Known already: {known}. Kept aside: {aside}.",
            new=tally["taken"], known=tally["known"], aside=tally["aside"],
        )
    )  # fmt: skip
    if tally["aside"]:
        raise SystemExit(1)


def _opened(file: str, mapped: Mapped) -> tuple[Iterator[Line], Columns]:
    """The lines under the headings, and what their columns hold."""
    text = decode(open_bytes(file))
    if text is None:
        raise stopped(_("{path} is not text.", path=file))
    try:
        lines = lines_of(text)
        head = next(lines, (0, []))[1]
    except csv.Error as fault:
        raise stopped(_("{path} is not CSV: {reason}", path=file, reason=str(fault))) from None
    columns = columns_of(head, mapped)
    if columns.left_out:
        click.echo(_("Columns that are not read: {names}", names=", ".join(columns.left_out)), err=True)
    return lines, columns


def _take(
    session: Session, site: str, lines: Iterator[Line], columns: Columns, mapped: Mapped, clock: SiteClock
) -> Tally:
    """Take the lines, so many at a time; how many became what."""
    from pengan.web.journal.names import SERVER
    from pengan.web.journal.taking import Parcel, Teller, take

    tally: Tally = {"taken": 0, "known": 0, "aside": 0}
    teller = Teller(SERVER, frozenset(Kind))
    while some := list(islice(lines, MOST_ENTRIES)):
        entries = [entry_in(cells, columns, mapped, clock) for _number, cells in some]
        for (number, _cells), answer in zip(
            some, take(session, site, [Parcel(teller, entries)], int(time.time()))[0], strict=True
        ):
            tally[answer.outcome] += 1
            if answer.faults and tally["aside"] <= MOST_TOLD:
                told = "; ".join(f"{fault.field}: {say(fault.message)}" for fault in answer.faults)
                click.echo(_("Line {number}: {what}", number=number, what=told), err=True)
    if tally["aside"] > MOST_TOLD:
        more = tally["aside"] - MOST_TOLD
        click.echo(ngettext("And {count} more line.", "And {count} more lines.", more), err=True)
    return tally


def _pairs(given: Sequence[str]) -> dict[str, str]:
    """`FIELD=…` by its field."""
    found = {}
    for one in given:
        name, sign, value = one.partition("=")
        if not sign or name not in FIELDS:
            fields = ", ".join(FIELDS)
            raise stopped(_("{given} should be like FIELD=…; fields are: {fields}.", given=one, fields=fields))
        found[name] = value
    return found


def _units(given: dict[str, str]) -> dict[str, str]:
    for name, unit in given.items():
        if unit not in UNITS.get(name, ()):
            known = ", ".join(f"{field}={key}" for field, units in UNITS.items() for key in units)
            raise stopped(
                _("{given} is not a unit of a field. Units are: {units}.", given=f"{name}={unit}", units=known)
            )
    return given
