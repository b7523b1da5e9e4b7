"""Names beside the ids of people, for answers that a phone shows as they are."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..people.models import Person


def names_of(session: Session, ids: Iterable[str | None]) -> dict[str, str]:
    """The names of these people, by id. Inside a transaction."""
    wanted = sorted({id for id in ids if id})
    if not wanted:
        return {}
    named = session.execute(select(Person.id, Person.name).where(Person.id.in_(wanted)))
    return {row.id: row.name for row in named}


def with_names(session: Session, answers: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The answers, each that speaks of a person with that person's name."""
    told = [answer for answer in answers if answer.get("by")]
    if not told:
        return answers
    with session.begin():
        names = names_of(session, [answer["by"] for answer in told])
    return [{**answer, "by_name": names.get(answer["by"])} if answer.get("by") else answer for answer in answers]
