"""A backup of everything, made while the server goes on: all tables as they stood at one moment.

On PostgreSQL that is a transaction at REPEATABLE READ, on SQLite a read of its write-ahead log; neither holds up a
writer. The server's own secret is not in it, so that a stolen backup does not tell invitations' codes: without that
file, open invitations stop working, and nothing else does.
"""

from __future__ import annotations

import shutil
from pathlib import Path
from uuid import uuid4

from sqlalchemy import text

from ..database import Base, Database, reading
from .faults import MovingFault, folder_taken
from .folder import Manifest, write_manifest, write_part
from .rows import rows_of


def back_up(database: Database, folder: Path, now: int) -> Manifest:
    """Write a backup into a folder that is not there yet, or empty. Raises `MovingFault`, `OSError`.

    It is written beside that folder first and takes its name when it is whole.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise MovingFault(folder_taken(folder=str(folder)))
    folder.parent.mkdir(parents=True, exist_ok=True)
    beside = folder.parent / f".{folder.name}.{uuid4().hex[:8]}"
    beside.mkdir(mode=0o700)
    try:
        manifest = _write(database, beside, now)
        if folder.exists():
            folder.rmdir()
        beside.rename(folder)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return manifest


def _write(database: Database, folder: Path, now: int) -> Manifest:
    with database.session() as session, reading(session):
        line = session.connection()
        steps = tuple(sorted(session.scalars(text("SELECT version_num FROM alembic_version"))))
        parts = tuple(write_part(folder, table.name, rows_of(line, table)) for table in Base.metadata.sorted_tables)
    manifest = Manifest(steps, now, parts)
    write_manifest(folder, manifest)
    return manifest
