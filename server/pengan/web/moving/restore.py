"""A backup put back, into a database of either kind, in one transaction: all of it or nothing.

The server may go on meanwhile: whoever reads sees what was there until the moment the backup takes its place. Phones
may have seen changes that came after the backup; each site gets a new epoch, which makes them fetch a fresh copy and
keep their outboxes. Nobody holds a claim of the queue any more.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, delete, select, update

from ..ahead.models import PlanningJob
from ..database import Base, Database
from ..people.models import Person
from ..sites.models import SiteCopy, new_epoch
from .faults import MovingFault, damaged, not_empty
from .folder import MANIFEST, Manifest, read_manifest, rows_in
from .rows import put_rows
from .steps import Stored, at_todays_step


def restore(database: Database, folder: Path, replace: bool = False) -> Manifest:
    """Put a backup back. Raises `MovingFault`, with everything as it was: for a folder that holds no backup, a damaged
    or a newer one, and for a database that holds something, unless it is to be replaced."""
    manifest = read_manifest(folder)
    database.upgrade()
    with database.engine.connect() as line:
        if not replace and _holds_something(line):
            raise MovingFault(not_empty())
    try:
        with at_todays_step(rows_in(folder, manifest), manifest.steps) as stored, database.engine.begin() as line:
            _put(line, stored)
    except ValueError:
        raise MovingFault(damaged(file=MANIFEST)) from None
    return manifest


def _holds_something(line: Connection) -> bool:
    return any(line.scalar(select(column).limit(1)) is not None for column in (SiteCopy.site, Person.id))


def _put(line: Connection, stored: Stored) -> None:
    tables = Base.metadata.sorted_tables
    for table in reversed(tables):
        line.execute(delete(table))
    for table in tables:
        if table.name in stored:
            put_rows(line, table, stored[table.name]())
    for site in line.scalars(select(SiteCopy.site)).all():
        line.execute(update(SiteCopy).where(SiteCopy.site == site).values(epoch=new_epoch()))
    line.execute(update(PlanningJob).values(worker=None, until=None))
