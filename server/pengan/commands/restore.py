"""`pengan restore FOLDER`: a backup put back."""

from __future__ import annotations

from pathlib import Path

import click

from pengan.terminal.opening import stopped
from pengan.words import _, ngettext, say


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--replace", is_flag=True, help="Let the backup take the place of whatever the database holds.")
def restore(folder: Path, replace: bool) -> None:
    """Put the backup in FOLDER back, all of it or nothing, into a database of any kind. The server may go on."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.moving.faults import MovingFault
    from pengan.web.moving.restore import restore as put_back
    from pengan.web.system.opening import open_database, settings_here

    try:
        with open_database(settings_here()) as database:
            manifest = put_back(database, folder, replace)
    except MovingFault as fault:
        raise stopped(say(fault.message)) from None
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
    rows = sum(part.rows for part in manifest.parts)
    click.echo(ngettext("{count} row is back.", "{count} rows are back.", rows))
