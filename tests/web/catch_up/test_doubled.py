"""A rest that reaches the server twice at the same moment is accepted once, and both phones hear so."""

from __future__ import annotations

from collections.abc import Callable
from threading import Barrier, Thread
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from pengan.engine.journal.entry import Kind
from pengan.web.catch_up import accepting
from pengan.web.catch_up.models import CaughtUp
from pengan.web.journal.models import JournalEntry
from web.catch_up.conftest import CATCH_UP, Park, an_acceptance, at
from web.people.crew import SITE, me

Judge = Callable[..., None]


def two_tabs(park: Park) -> list[FlaskClient]:
    """Two browsers with one person's cookie."""
    first, second = park.person("lead"), park.browser()
    cookie = first.get_cookie("pengan")
    assert cookie is not None
    second.set_cookie("pengan", cookie.value)
    return [first, second]


def meet_where_they_can(park: Park, monkeypatch: pytest.MonkeyPatch, together: Barrier) -> None:
    """On PostgreSQL both have looked for the id, and found nothing, before either goes on to write. SQLite lets one
    writer in at a time."""
    judge: Judge = accepting._hold_to_tonight

    def meet(*given: Any) -> None:
        together.wait(60)
        judge(*given)

    if park.shared.database.engine.dialect.name == "postgresql":
        monkeypatch.setattr(accepting, "_hold_to_tonight", meet)


def test_two_that_write_at_once_make_one_acceptance_and_one_line_of_the_journal(
    park: Park, monkeypatch: pytest.MonkeyPatch
) -> None:
    park.power_cut(at("22:45"), at("23:40"))
    park.is_now(at("23:40"))
    tabs, given, answers = two_tabs(park), an_acceptance(), []
    meet_where_they_can(park, monkeypatch, Barrier(2))

    def send(tab: FlaskClient) -> None:
        answer = tab.post(CATCH_UP, json=given)
        answers.append((answer.status_code, answer.json))

    threads = [Thread(target=send, args=(tab,), daemon=True) for tab in tabs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(120)
    assert answers == [(200, {"id": given["id"]})] * 2
    person = f"person:{me(tabs[0])['person']}"
    with park.shared.database.session() as session, session.begin():
        kept = [(row.id, row.by, row.at) for row in session.scalars(select(CaughtUp).where(CaughtUp.site == SITE))]
        notes = session.scalars(select(JournalEntry.by).where(JournalEntry.kind == Kind.NOTE.value)).all()
    assert (kept, notes) == ([(given["id"], person, at("23:40"))], [person])
    assert (park.work(), park.work()) == (1, 0)
