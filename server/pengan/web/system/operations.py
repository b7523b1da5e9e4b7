"""Is the database there?"""

from __future__ import annotations

from sqlalchemy import text
from sqlalchemy.orm import Session


def answers(session: Session) -> None:
    """Ask the database the smallest question. Raises SQLAlchemy's error where it does not answer."""
    with session.begin():
        session.execute(text("SELECT 1"))
