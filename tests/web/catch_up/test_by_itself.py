"""The site's own rule accepts the rest of a night: once, when all is over, and never against a person."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from pengan.engine.journal.entry import Kind
from pengan.web.alarms.watching import Watcher
from pengan.web.catch_up.by_itself import SETTLES_S, ByItself
from pengan.web.catch_up.models import CaughtUp
from pengan.web.journal.models import JournalEntry
from pengan.web.sites.operations import document_of
from web.catch_up.conftest import CATCH_UP, SITE, Park, a_park, accepts, at

OVER = at("23:40")
SETTLED = OVER + SETTLES_S


def by_rule(park: Park, rule: str = "recover") -> None:
    """The park with the rule, an hour without power in its second run."""
    data = a_park()
    next(record for record in data["records"] if record["table"] == "site")["catch_up_by_itself"] = rule
    park.put(data)
    park.power_cut(at("22:45"), OVER)


def look(park: Park, now: int, eye: ByItself | None = None) -> bool:
    """What the watching process does after a look at the site."""
    park.is_now(now)
    with park.shared.database.session() as session:
        document = document_of(session, SITE).document
        return (eye or ByItself()).look(session, document, park.night(), now)


def accepted(park: Park) -> list[tuple[str, str, int]]:
    with park.shared.database.session() as session, session.begin():
        return [(row.by, row.way, row.at) for row in session.scalars(select(CaughtUp).order_by(CaughtUp.at))]


@pytest.mark.parametrize("rule", ["keep", "recover"])
def test_what_the_rule_accepts_is_the_sheet_a_person_would_be_offered(park: Park, rule: str) -> None:
    by_rule(park, rule)
    park.is_now(SETTLED)
    offered = park.person("lead").get(CATCH_UP).json["offers"][rule]["sheet"]
    assert look(park, SETTLED)
    assert accepted(park) == [("server", rule, SETTLED)]
    assert park.work() == 1
    assert park.person("crew").get(f"/api/sites/{SITE}/nights/tonight").json == offered


def test_without_a_rule_it_is_left_to_people(park: Park) -> None:
    by_rule(park, "never")
    assert not look(park, SETTLED)
    assert accepted(park) == []


def test_it_waits_until_nothing_flickers(park: Park) -> None:
    by_rule(park)
    assert not look(park, SETTLED - 1)
    park.told((Kind.POWER_LOST, OVER + 60, None))
    assert not look(park, SETTLED + 600)
    park.told((Kind.POWER_BACK, OVER + 700, None))
    assert not look(park, OVER + 700 + SETTLES_S - 1)
    assert look(park, OVER + 700 + SETTLES_S)
    assert [at for _, _, at in accepted(park)] == [OVER + 700 + SETTLES_S]


def test_one_end_is_accepted_once_whoever_looks_and_however_often(park: Park) -> None:
    by_rule(park)
    assert [look(park, SETTLED), look(park, SETTLED + 60), look(park, SETTLED)] == [True, False, False]
    park.work()
    assert not look(park, SETTLED + 600)
    assert len(accepted(park)) == 1


def test_another_cut_later_is_another_rest(park: Park) -> None:
    by_rule(park)
    look(park, SETTLED)
    park.work()
    park.told((Kind.POWER_LOST, at("00:10", 11), None), (Kind.POWER_BACK, at("00:30", 11), None))
    assert look(park, at("00:32", 11))
    assert len(accepted(park)) == 2


def test_what_a_person_accepted_first_stands(park: Park) -> None:
    by_rule(park)
    park.is_now(SETTLED - 30)
    assert accepts(park.person("lead"), at=SETTLED - 30, way="keep") == (200, None)
    park.work()
    assert not look(park, SETTLED)
    assert [way for _, way, _ in accepted(park)] == ["keep"]


def test_a_night_that_lost_nothing_is_left_as_it_is(park: Park) -> None:
    by_rule(park)
    park.is_now(at("21:30"))
    eye = ByItself()
    assert not look(park, at("21:40"), eye)
    assert accepted(park) == []


def test_the_journal_says_that_it_was_the_rule(park: Park) -> None:
    by_rule(park)
    look(park, SETTLED)
    with park.shared.database.session() as session, session.begin():
        notes = session.scalars(select(JournalEntry).where(JournalEntry.kind == Kind.NOTE.value)).all()
    assert [(note.by, note.at, "rule" in note.text) for note in notes] == [("server", SETTLED, True)]


def test_the_process_that_watches_carries_it_out(park: Park) -> None:
    by_rule(park)
    now = SETTLED
    watcher = Watcher("test", clock=lambda: float(now))
    for now in range(SETTLED, SETTLED + 600, 60):
        park.is_now(now)
        with park.shared.database.session() as session:
            done = watcher.look_once(session, now)
        assert done is None or done.fault is None
    assert [by for by, _, _ in accepted(park)] == ["server"]
