"""The database for a command: opened with its tables brought up to date, and closed when the command is done."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

import click

from ..ahead import models as ahead_models
from ..alarms import models as alarm_models
from ..database import Database
from ..journal import models as journal_models
from ..need import models as need_models
from ..nights import models as night_models
from ..people import models as people_models
from ..photos import models as photo_models
from ..push import models as push_models
from ..settings import Settings, settings_from
from ..sites import models as site_models
from ..sync import models as sync_models

EVERY_TABLE = (
    ahead_models, alarm_models, journal_models, need_models, night_models, people_models, photo_models,
    push_models, site_models, sync_models,
)  # fmt: skip
"""The modules that declare tables: once they are imported, `Base.metadata` knows every one."""


@contextmanager
def open_database(settings: Settings) -> Iterator[Database]:
    """The database of the settings. Raises SQLAlchemy's error where it cannot be used."""
    database = Database(settings.database_url)
    try:
        database.upgrade()
        yield database
    finally:
        database.engine.dispose()


def settings_here() -> Settings:
    """The settings of the environment. Ends the command with one line where one cannot be read."""
    try:
        return settings_from(os.environ)
    except ValueError as fault:
        raise click.ClickException(str(fault)) from fault
