"""`pengan invite SITE`: a code for somebody to come in by; the way in of a site's first manager."""

from __future__ import annotations

import os
import time

import click

from pengan.engine.clock.instants import Instant
from pengan.terminal.opening import stopped
from pengan.web.database import Database
from pengan.web.own_secret import own_secret
from pengan.web.people.invitations import Invited, address_of, invite_from_the_server
from pengan.web.people.qr import qr_lines
from pengan.web.people.rights import ROLES, Role
from pengan.web.problems import Problem
from pengan.web.settings import Settings, settings_from
from pengan.words import _, current_reader, ngettext, say

LOCAL = "http://127.0.0.1:{port}"
USUAL_PORT = "8484"


@click.command()
@click.argument("site")
@click.option("--role", type=click.Choice(ROLES), required=True, help="What they may do at the site.")
@click.option("--name", help="Whom it is meant for.")
@click.option("--address", help="Where their phone reaches the server. Without it PENGAN_ADDRESS, then this machine.")
@click.option("--qr", is_flag=True, help="Draw the address for a phone's camera as well.")
def invite(site: str, role: Role, name: str | None, address: str | None, qr: bool) -> None:
    """Ask somebody to SITE (its id): print a code that lets one device in, once and for a while."""
    try:
        settings = settings_from(os.environ)
        invited = _invited(settings, site, role, name)
    except ValueError as fault:
        raise stopped(str(fault)) from None
    except Problem as problem:
        raise stopped(say(problem.message, current_reader())) from None
    base = address or settings.address or LOCAL.format(port=os.environ.get("PENGAN_PORT", USUAL_PORT))
    _tell(settings, invited, address_of(base, invited.code), qr)


def _invited(settings: Settings, site: str, role: Role, name: str | None) -> Invited:
    database = Database(settings.database_url)
    database.upgrade()
    secret = own_secret(settings.secret_path)
    now = Instant(int(settings.now.timestamp() if settings.now else time.time()))
    try:
        with database.session() as session:
            return invite_from_the_server(session, secret, site, role, name, now, settings.invitation_hours)
    finally:
        database.engine.dispose()


def _tell(settings: Settings, invited: Invited, address: str, qr: bool) -> None:
    click.echo(_("Code: {code}", code=invited.code))
    click.echo(_("Address: {address}", address=address))
    if qr:
        click.echo(qr_lines(address))
    hours = settings.invitation_hours
    click.echo(
        ngettext(
            "It can be used once, within {count} hour. Whoever has it can come in: hand it to one person alone.",
            "It can be used once, within {count} hours. Whoever has it can come in: hand it to one person alone.",
            hours,
        )
    )
