"""Names beside who told an entry: `person:<id>`, `reporter:<id>` or `server`."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..sync.answering import names_of
from .models import Reporter

PERSON, REPORTER, SERVER = "person:", "reporter:", "server"


def names_of_tellers(session: Session, tellers: Iterable[str]) -> dict[str, str]:
    """The names of these tellers, by what stands in `by`. Inside a transaction."""
    given = set(tellers)
    people = names_of(session, (one.removeprefix(PERSON) for one in given if one.startswith(PERSON)))
    ids = sorted(one.removeprefix(REPORTER) for one in given if one.startswith(REPORTER))
    found = session.execute(select(Reporter.id, Reporter.name).where(Reporter.id.in_(ids))) if ids else ()
    return {PERSON + id: name for id, name in people.items()} | {REPORTER + row.id: row.name for row in found}
