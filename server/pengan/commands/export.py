"""`pengan export SITE FILE`: one site with its history, to be taken to another server."""

from __future__ import annotations

import os
import time
from pathlib import Path

import click

from pengan.terminal.opening import stopped
from pengan.words import _, say


@click.command()
@click.argument("site")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
def export(site: str, file: Path) -> None:
    """Write SITE (its id) with all its history into FILE. pengan load takes it in on another server."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.moving.site_file import write_site
    from pengan.web.problems import Problem
    from pengan.web.system.opening import open_database, settings_here

    try:
        with open_database(settings_here()) as database, database.session() as session:
            write_site(session, site, file, int(time.time()))
    except Problem as problem:
        raise stopped(say(problem.message)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    except OSError as fault:
        raise stopped(
            _("{path} cannot be written: {reason}", path=str(file), reason=os.strerror(fault.errno or 0))
        ) from None
    click.echo(_("The site and its history are in {path}.", path=str(file)))
