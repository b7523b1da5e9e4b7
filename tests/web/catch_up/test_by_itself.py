"""The site's own rule accepts the rest of a night: once, when all is over, and never against a person."""

from __future__ import annotations

from threading import Barrier, Thread

import pytest
from sqlalchemy import select
from sqlalchemy.exc import UnboundExecutionError
from sqlalchemy.orm import Session

from pengan.engine.document.read import read_document
from pengan.engine.journal.entry import Kind
from pengan.web.alarms.watching import Watcher
from pengan.web.catch_up import by_itself
from pengan.web.catch_up.by_itself import SETTLES_S, ByItself
from pengan.web.catch_up.models import CaughtUp
from pengan.web.journal.models import JournalEntry
from pengan.web.sites.operations import document_of
from web.catch_up.conftest import CATCH_UP, SITE, Park, Row, a_park, accepts, at

OVER = at("23:40")
SETTLED = OVER + SETTLES_S


def a_park_with(rule: str) -> Row:
    data = a_park()
    next(record for record in data["records"] if record["table"] == "site")["catch_up_by_itself"] = rule
    return data


def by_rule(park: Park, rule: str = "recover") -> None:
    """The park with the rule, an hour without power in its second run."""
    park.put(a_park_with(rule))
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


def notes(park: Park) -> list[JournalEntry]:
    with park.shared.database.session() as session, session.begin():
        return list(session.scalars(select(JournalEntry).where(JournalEntry.kind == Kind.NOTE.value)))


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


def test_without_a_rule_the_database_is_not_asked(park: Park) -> None:
    nobody = Session()
    assert not ByItself().look(nobody, read_document(a_park()), park.night(), SETTLED)
    with pytest.raises(UnboundExecutionError):
        ByItself().look(nobody, read_document(a_park_with("keep")), park.night(), SETTLED)


def test_a_rule_that_was_taken_back_a_moment_ago_accepts_nothing(park: Park) -> None:
    by_rule(park, "never")
    park.is_now(SETTLED)
    with park.shared.database.session() as session:
        assert not ByItself().look(session, read_document(a_park_with("recover")), park.night(), SETTLED)
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


def test_of_two_processes_that_think_at_once_one_accepts(park: Park) -> None:
    by_rule(park)
    park.is_now(SETTLED)
    answers: list[bool] = []
    together = Barrier(2)

    def one_process() -> None:
        with park.shared.database.session() as session:
            document = document_of(session, SITE).document
            together.wait()
            answers.append(ByItself().look(session, document, park.night(), SETTLED))

    threads = [Thread(target=one_process, daemon=True) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(answers) == [False, True]
    assert accepted(park) == [("server", "recover", SETTLED)]
    assert len(notes(park)) == 1


def test_a_process_killed_before_it_told_the_journal_is_made_up_for_by_the_next(
    park: Park, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_rule(park)
    with monkeypatch.context() as killed:
        killed.setattr(by_itself, "store", lambda *_: pytest.fail("killed"))
        with pytest.raises(pytest.fail.Exception, match="killed"):
            look(park, SETTLED)
    assert (len(accepted(park)), notes(park)) == (1, [])
    assert not look(park, SETTLED + 30)
    assert not look(park, SETTLED + 60)
    assert [note.at for note in notes(park)] == [SETTLED]
    assert len(accepted(park)) == 1


def test_while_another_supply_is_still_shut_it_waits(park: Park) -> None:
    by_rule(park)
    park.supply_told(Kind.SHUT, at("23:00"))
    assert not look(park, SETTLED + 600)
    park.supply_told(Kind.FREED, at("00:00", 11))
    assert look(park, at("00:02", 11))


def test_an_end_that_is_told_hours_late_is_taken_up_from_then_on(park: Park) -> None:
    park.put(a_park_with("recover"))
    park.ran_until(at("22:45"))
    park.told((Kind.POWER_LOST, at("22:45"), None))
    late = at("02:30", 11)
    assert not look(park, late)
    park.told((Kind.POWER_BACK, OVER, None))
    assert look(park, late)
    assert accepted(park) == [("server", "recover", late)]
    before = park.tonight()
    assert park.work() == 1
    assert [run for run in park.tonight().runs if run.start >= late] != [
        run for run in before.runs if run.start >= late
    ]


def test_a_night_that_is_over_is_left_as_it_was(park: Park) -> None:
    by_rule(park)
    assert not look(park, park.night().ends + 1)
    assert accepted(park) == []


def test_what_was_over_before_tonight_is_no_matter_of_tonight(park: Park) -> None:
    park.put(a_park_with("recover"))
    park.told((Kind.POWER_LOST, at("10:00"), None), (Kind.POWER_BACK, at("11:00"), None))
    assert not look(park, at("23:00"))
    assert accepted(park) == []


def test_a_person_may_accept_another_rest_after_the_rule(park: Park) -> None:
    """What the rule gave up stays given up; the person's word is kept all the same, and is the last one."""
    by_rule(park, "keep")
    look(park, SETTLED)
    park.work()
    later = SETTLED + 600
    park.is_now(later)
    assert accepts(park.person("lead"), at=later, way="recover") == (200, None)
    park.work()
    assert [(by.partition(":")[0], way) for by, way, _ in accepted(park)] == [("server", "keep"), ("person", "recover")]
    assert not look(park, later + 600)


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


def test_a_night_that_lost_nothing_is_left_as_it_is_and_judged_once(
    park: Park, monkeypatch: pytest.MonkeyPatch
) -> None:
    park.put(a_park_with("recover"))
    park.told((Kind.POWER_LOST, at("21:00"), None), (Kind.POWER_BACK, at("21:20"), None))
    eye = ByItself()
    assert not look(park, at("21:40"), eye)
    monkeypatch.setattr(by_itself, "is_news", lambda *_: pytest.fail("judged twice"))
    assert not look(park, at("21:45"), eye)
    assert accepted(park) == []


def test_the_journal_says_that_it_was_the_rule(park: Park) -> None:
    by_rule(park)
    look(park, SETTLED)
    assert [(note.by, note.at, "rule" in note.text) for note in notes(park)] == [("server", SETTLED, True)]


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
