"""Brings a database's tables to another step of their history, in one transaction: all of it happens or nothing."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, inspect, text

FIRST = "0001"
LOCK = 0x50454E47
"""Held on PostgreSQL while tables change, so that processes that start together do it once. SQLite has one writer."""


def upgrade(engine: Engine, to: str = "heads") -> None:
    """Forward to a step: to the newest unless told otherwise. Quick where the tables are there already."""
    if to != "heads" or not _is_newest(engine):
        _change(engine, lambda config: command.upgrade(config, to))


def downgrade(engine: Engine, to: str) -> None:
    """Back to a step, or to `base`, where there are no tables. What the later steps added is lost."""
    _change(engine, lambda config: command.downgrade(config, to))


def _change(engine: Engine, run: Callable[[Config], None]) -> None:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    with engine.begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
        config.attributes["connection"] = connection
        if _unnumbered(connection):
            command.stamp(config, FIRST)
        run(config)


def _is_newest(engine: Engine) -> bool:
    with engine.connect() as connection:
        return set(MigrationContext.configure(connection).get_current_heads()) == newest_step()


def _unnumbered(connection: Connection) -> bool:
    """Whether the tables are from before steps were counted."""
    tables = set(inspect(connection).get_table_names())
    return "site_copies" in tables and "alembic_version" not in tables


@cache
def newest_step() -> frozenset[str]:
    """The steps at the end of the tables' history: what a database of this version is at."""
    return frozenset(ScriptDirectory(str(Path(__file__).parent)).get_heads())


@cache
def known_steps() -> frozenset[str]:
    """Every step this version knows."""
    return frozenset(script.revision for script in ScriptDirectory(str(Path(__file__).parent)).walk_revisions())
