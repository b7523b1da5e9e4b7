"""Is the database there, does it have the tables of this version, and which version is this?"""

from __future__ import annotations

from importlib.metadata import version

import tzdata
from sqlalchemy import text
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.orm import Session

from pengan.engine import ENGINE_VERSION

from ..migrations.steps import newest_step


def answers(session: Session) -> None:
    """Ask the database the smallest question. Raises SQLAlchemy's error where it does not answer."""
    with session.begin():
        session.execute(text("SELECT 1"))


def versions() -> dict[str, str]:
    """What runs here: the server, its planning engine and its time zone data."""
    return {"version": version("pengan"), "planner": ENGINE_VERSION, "zone_data": str(tzdata.IANA_VERSION)}


def is_ready(session: Session) -> bool:
    """Whether the database answers, with its tables as this version wants them."""
    try:
        with session.begin():
            steps = set(session.scalars(text("SELECT version_num FROM alembic_version")))
    except SQLAlchemyError:
        return False
    return steps == newest_step()
