"""`pengan backup FOLDER`: everything the server holds, while it goes on."""

from __future__ import annotations

import os
import time
from pathlib import Path

import click

from pengan.terminal.opening import stopped
from pengan.words import _, ngettext, say


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
def backup(folder: Path) -> None:
    """Write all sites, people and the whole history into FOLDER, which is not there yet. The server may go on."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.moving.backup import back_up
    from pengan.web.moving.faults import MovingFault
    from pengan.web.system.opening import open_database, settings_here

    try:
        with open_database(settings_here()) as database:
            manifest = back_up(database, folder, int(time.time()))
    except MovingFault as fault:
        raise stopped(say(fault.message)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    except OSError as fault:
        raise stopped(
            _("{path} cannot be written: {reason}", path=str(folder), reason=os.strerror(fault.errno or 0))
        ) from None
    rows = sum(part.rows for part in manifest.parts)
    click.echo(ngettext("{count} row is in {path}.", "{count} rows are in {path}.", rows, path=str(folder)))
    click.echo(_("It holds people's names and how they sign in: keep it where only you can read it."))
