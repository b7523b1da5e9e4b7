"""`pengan clock FILE`: the coming changes of the site's clock, or the clock as other programs write it."""

from __future__ import annotations

from datetime import datetime

import click

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.instants import Policy
from pengan.engine.clock.own_rule import own_field_of, posix_of
from pengan.engine.clock.vtimezone import read_vtimezone, vtimezone_of
from pengan.terminal.clock_page import clock_page
from pengan.terminal.opening import open_bytes, open_document, stopped
from pengan.terminal.planning import Site, site_of
from pengan.words import _, say


@click.command()
@click.argument("file")
@click.option("--years", type=click.IntRange(1, 50), default=2, show_default=True, help="How many years to look ahead.")
@click.option("--now", metavar="MOMENT", help="What counts as now, such as 2026-11-25T23:30 on the site's clock.")
@click.option("--posix", "form", flag_value="posix", help="Print the clock as a POSIX TZ string (RFC 9636).")
@click.option("--vtimezone", "form", flag_value="vtimezone", help="Print the clock as a VTIMEZONE (RFC 5545).")
@click.option("--calendar", metavar="ICS", help="Print what the site's record needs for the clock in a calendar file.")
def clock(file: str, years: int, now: str | None, form: str | None, calendar: str | None) -> None:
    """List the coming changes of the clock of the site in FILE, and what each does to the nights around it."""
    site = site_of(open_document(file), now)
    if calendar is not None:
        click.echo(_own_field(calendar, site.now))
    elif form == "posix":
        click.echo(_posix(site))
    elif form == "vtimezone":
        click.echo(vtimezone_of(site.clock, _new_year(site)), nl=False)
    else:
        click.echo("\n".join(_page(site, years)))


def _page(site: Site, years: int) -> list[str]:
    try:
        return list(clock_page(site, years))
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None


def _posix(site: Site) -> str:
    text = posix_of(site.clock.timeline, site.now)
    if text is None:
        raise stopped(_("This clock has dated changes ahead, which a POSIX TZ string cannot say; --vtimezone can."))
    return text


def _own_field(path: str, since: int) -> str:
    try:
        field, text = own_field_of(read_vtimezone(open_bytes(path).decode("utf-8", "replace")), since)
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    return f"{field}: {text}"


def _new_year(site: Site) -> int:
    """The beginning of the year on the site's wall, so that the same document gives the same text all year."""
    return site.clock.instant(datetime(site.clock.wall(site.now).year, 1, 1), Policy.COMPATIBLE)
