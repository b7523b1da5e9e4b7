"""Names beside the ids of people, for answers that a phone shows as they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..database import reading
from ..need.models import WeatherStation
from ..people.models import Person


def names_of(session: Session, ids: Iterable[str | None]) -> dict[str, str]:
    """The names of these people, and of weather stations, which edit too, by id. Inside a transaction."""
    wanted = sorted({id for id in ids if id})
    if not wanted:
        return {}
    named = [select(who.id, who.name).where(who.id.in_(wanted)) for who in (Person, WeatherStation)]
    return {row.id: row.name for found in named for row in session.execute(found)}


def with_names(session: Session, answers: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The answers, each that speaks of people with their names."""
    spoken = [item for answer in answers for item in (answer, *answer.get("beside", ())) if item.get("by")]
    if not spoken:
        return answers
    with reading(session):
        names = names_of(session, [item["by"] for item in spoken])
    return [_named(answer, names) for answer in answers]


def _named(answer: dict[str, Any], names: Mapping[str, str]) -> dict[str, Any]:
    own: dict[str, Any] = {"by_name": names.get(answer["by"])} if answer.get("by") else {}
    if "beside" in answer:
        own["beside"] = [item | {"by_name": names.get(item["by"])} for item in answer["beside"]]
    return answer | own
