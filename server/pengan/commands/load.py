"""`pengan load FILE`: a site with its history, taken in from another server."""

from __future__ import annotations

import os
import time
from pathlib import Path

import click

from pengan.terminal.opening import faults_told, stopped
from pengan.words import _, say


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--replace", is_flag=True, help="Let it take the place of the site, if that is here already.")
def load(file: Path, replace: bool) -> None:
    """Take in the site that pengan export wrote into FILE, with all its history."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.moving.faults import MovingFault
    from pengan.web.moving.load import load_site
    from pengan.web.moving.site_file import read_site
    from pengan.web.system.opening import open_database, settings_here

    try:
        with faults_told(str(file)):
            moved = read_site(file)
        with open_database(settings_here()) as database, database.session() as session:
            load_site(session, moved, int(time.time()), replace)
    except MovingFault as fault:
        raise stopped(say(fault.message)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    except FileNotFoundError:
        raise stopped(_("There is no file {path}.", path=str(file))) from None
    except OSError as fault:
        raise stopped(
            _("{path} cannot be read: {reason}", path=str(file), reason=os.strerror(fault.errno or 0))
        ) from None
    click.echo(
        _(
            "{site} is here. pengan invite {id} --role manager lets its first manager in.",
            site=moved.document.site.name,
            id=moved.site,
        )
    )
