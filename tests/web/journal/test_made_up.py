"""The demo site's made-up field in its journal."""

from __future__ import annotations

import json
from collections import Counter
from datetime import datetime, timedelta
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.web.app import create_app
from pengan.web.extensions import KEY
from pengan.web.journal.made_up import MAKER, NAME, play_on, troubles_of
from pengan.web.journal.models import JournalAside, JournalEntry, Reporter
from pengan.web.settings import DEMO, Settings

EVENING = datetime.fromisoformat("2026-10-24T23:30:00+01:00")
NOW = int(EVENING.timestamp())
DEMO_DOCUMENT = read_document(json.loads(DEMO.read_text("utf-8")))


def opened(folder: Path, first: Path = DEMO) -> Session:
    app = create_app(Settings(data=folder, first_document=first, app=folder, now=EVENING, effort=1))
    return app.extensions[KEY].database.session()


def entries(session: Session) -> list[JournalEntry]:
    with session.begin():
        return list(session.scalars(select(JournalEntry).order_by(JournalEntry.at, JournalEntry.number)))


def test_a_newcomer_finds_last_night_and_tonight_so_far(tmp_path: Path) -> None:
    with opened(tmp_path) as session:
        assert play_on(session, NOW, 1) > 5000
        found = entries(session)
        with session.begin():
            assert session.scalars(select(JournalAside)).all() == []
            assert session.scalars(select(Reporter.name)).all() == [NAME]
    kinds = Counter(entry.kind for entry in found)
    assert {"opened", "closed", "flow", "count", "alive"} <= kinds.keys()
    assert max(entry.at for entry in found) <= NOW
    assert max(entry.at for entry in found) > NOW - 300
    assert min(entry.at for entry in found) < NOW - 24 * 3600


def test_it_plays_on_from_where_it_was_and_tells_nothing_twice(tmp_path: Path) -> None:
    later = NOW + 3600
    with opened(tmp_path) as session:
        play_on(session, NOW, 1)
        before = {entry.id for entry in entries(session)}
        assert play_on(session, NOW, 1) == 0
        more = play_on(session, later, 1)
        after = entries(session)
    assert 0 < more == len(after) - len(before)
    assert before < {entry.id for entry in after}
    assert all(entry.at > NOW for entry in after if entry.id not in before)


def test_in_pieces_it_tells_what_it_tells_at_once(tmp_path: Path) -> None:
    with opened(tmp_path / "pieces") as session:
        for now in range(NOW - 20 * 3600, NOW + 1, 6 * 3600):
            play_on(session, now, 1)
        play_on(session, NOW, 1)
        pieces = entries(session)
    with opened(tmp_path / "once") as session:
        play_on(session, NOW, 1)
        once = entries(session)
    tonight = {entry.id for entry in once if entry.at > NOW - 11 * 3600}
    assert tonight
    assert tonight <= {entry.id for entry in pieces}


def test_counters_never_go_back(tmp_path: Path) -> None:
    with opened(tmp_path) as session:
        for day in range(2):
            play_on(session, NOW + day * 86_400, 1)
        found = entries(session)
    for supply in {entry.supply for entry in found if entry.kind == "count"}:
        counted = [entry.count_l for entry in found if entry.kind == "count" and entry.supply == supply]
        assert counted == sorted(counted)
        assert len(counted) > 40


def test_every_night_has_a_trouble_that_its_records_allow() -> None:
    seen = set()
    for day in range(2):
        sheet = plan_night(DEMO_DOCUMENT, EVENING.date() + timedelta(days=day), effort=1)
        found = troubles_of(DEMO_DOCUMENT, sheet)
        assert len(found) == 3
        seen |= {type(trouble).__name__ for trouble in found}
    assert seen == {"Break", "DeadValve", "Leak", "PowerCut", "Drift"}


def test_a_site_of_ones_own_has_none(tmp_path: Path) -> None:
    own = tmp_path / "own.json"
    own.write_text(DEMO.read_text("utf-8"), encoding="utf-8")
    with opened(tmp_path, own) as session:
        assert play_on(session, NOW, 1) == 0
        assert entries(session) == []


def test_a_manager_ends_it(tmp_path: Path) -> None:
    with opened(tmp_path) as session:
        with session.begin():
            session.scalars(select(Reporter).where(Reporter.made_by == MAKER)).one().ended_at = NOW
        assert play_on(session, NOW, 1) == 0


def test_only_the_first_start_lets_it_report(tmp_path: Path) -> None:
    """Whoever starts over an older folder, or ended it, is not given another."""
    opened(tmp_path).close()
    with opened(tmp_path) as session, session.begin():
        assert len(session.scalars(select(Reporter)).all()) == 1
