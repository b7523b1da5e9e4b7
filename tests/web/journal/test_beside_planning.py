"""The journal holds nobody up: neither those who plan nor those who edit wait for it, nor it for them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Thread
from uuid import uuid4

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from pengan.engine.journal.entry import Entry, Kind
from pengan.web.ahead.models import PlanningJob
from pengan.web.ahead.operations import work_once
from pengan.web.ahead.planning import Orders
from pengan.web.journal.storing import store
from pengan.web.nights.models import StoredSheet
from pengan.web.sites.models import SiteCopy
from web.journal.conftest import JOURNAL, NOW, counted, made_reporter, outcomes, row, send, serve
from web.people.crew import SITE, Server

PATIENCE_S = 60


def within_time(work: Callable[[], object]) -> object:
    """What the work answers; a wait for a lock that is not let go of fails instead of lasting for ever."""
    answers: list[object] = []
    thread = Thread(target=lambda: answers.append(work()), daemon=True)
    thread.start()
    thread.join(PATIENCE_S)
    assert answers, "it waits for a lock"
    return answers[0]


def push(client: FlaskClient) -> str:
    new = str(uuid4())
    added = {"id": str(uuid4()), "kind": "add", "table": "hydrozones", "record": new, "field": None, "seen": None}
    now = {"table": "hydrozones", "id": new, "name": "Roses"}
    sets = [{"id": str(uuid4()), "site": SITE, "edits": [{**added, "now": now, "format": 1}]}]
    answer = client.post("/api/sync/push", json={"sets": sets})
    assert answer.status_code == 200, answer.text
    outcome: str = answer.json["answers"][0]["outcome"]
    return outcome


def some(count: int) -> list[Entry]:
    return [
        Entry(str(uuid4()), NOW - number, Kind.FLOW, "server", supply="north", flow_lpm=5) for number in range(count)
    ]


@pytest.fixture
def several(make_postgres: Callable[[], str], tmp_path: Path) -> Iterator[Server]:
    """A server whose database lets several write at a time. SQLite has one writer, whatever it writes: there the
    journal's transactions are kept short."""
    made = serve(tmp_path, make_postgres())
    yield made
    made.shared.database.engine.dispose()


def test_edits_and_planning_commit_while_entries_are_being_written(several: Server) -> None:
    database, manager = several.shared.database, several.person("manager")
    with database.session() as writing, writing.begin():
        assert store(writing, SITE, some(50), NOW) == ["taken"] * 50
        writing.flush()
        assert within_time(lambda: push(manager)) == "taken"

        def plan() -> bool:
            """Both sites, whichever comes first."""
            with database.session() as session:
                return all(work_once(session, "one", several.now, Orders(effort=1)) for _site in range(2))

        assert within_time(plan)
        with database.session() as session:
            assert session.scalars(select(StoredSheet.night).where(StoredSheet.site == SITE)).all()
        assert counted(several) == (0, 0), "not committed yet"
    assert counted(several) == (50, 0)


def test_entries_are_taken_while_somebody_holds_the_site_and_the_queue(several: Server) -> None:
    token = made_reporter(several.person("manager"))["token"]
    with several.shared.database.session() as holding, holding.begin():
        holding.execute(select(SiteCopy).with_for_update())
        holding.execute(select(PlanningJob).with_for_update())
        assert within_time(lambda: outcomes(send(several, token, row(), row("flow")))) == ["taken", "taken"]


def test_two_who_write_to_one_journal_get_their_numbers_in_turn(several: Server) -> None:
    """Whoever asks for what came after a number never misses one that became visible later."""
    token = made_reporter(several.person("manager"))["token"]
    with several.shared.database.session() as writing:
        writing.begin()
        store(writing, SITE, some(3), NOW)
        waiting = Thread(target=lambda: send(several, token, row()), daemon=True)
        waiting.start()
        waiting.join(0.5)
        assert waiting.is_alive()
        writing.commit()
        waiting.join(PATIENCE_S)
    assert counted(several) == (4, 0)


def test_whoever_reads_a_long_table_holds_nobody_up(
    server: Server, manager: FlaskClient, token: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("pengan.web.journal.finding.IN_ONE_GO", 2)
    send(server, token, *(row("flow", flow_lpm=number) for number in range(6)))
    answer = manager.get(f"{JOURNAL}/table.csv", buffered=False)
    lines = iter(answer.response)
    next(lines)
    next(lines)
    assert within_time(lambda: push(server.person("manager"))) == "taken"
    assert within_time(lambda: outcomes(send(server, token, row()))) == ["taken"]
    answer.close()
