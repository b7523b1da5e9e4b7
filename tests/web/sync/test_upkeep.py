"""Old removal marks are forgotten; whoever comes later still harms nothing."""

from __future__ import annotations

from sqlalchemy import func, select

from builders import a_station
from pengan.engine.clock.instants import Instant
from pengan.engine.document.write import write_document
from pengan.web.history.replay import document_of_records, replayed
from pengan.web.sites.models import ROWS
from pengan.web.sites.operations import document_of
from pengan.web.sync.upkeep import KEPT_S, Tended, tend
from web.sync.crew import SITE, World, add, edit, remove, rename


def stations(world: World) -> int:
    with world.database.session() as session:
        return session.scalar(select(func.count()).select_from(ROWS["stations"])) or 0


def tended(world: World) -> Tended:
    with world.database.session() as session:
        return tend(session, Instant(world.now))


def test_removal_marks_live_four_hundred_days(world: World) -> None:
    ana = world.person("Ana")
    ana.push([add(a_station("s9"))], [remove("stations", "s9")])
    world.now += KEPT_S
    assert (tended(world), stations(world)) == (Tended(0, 0), 5)
    world.now += 2
    assert (tended(world), stations(world)) == (Tended(0, 1), 4)
    assert tended(world) == Tended(0, 0)


def test_a_late_edit_of_what_was_forgotten_is_kept_and_revives_nothing(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.push([add(a_station("s9"))])
    ben.pull()
    ana.push([remove("stations", "s9")])
    world.now += KEPT_S + 2
    tended(world)
    late = rename("s9", "Pond")
    told = ben.one(late)
    assert (told["outcome"], told["by"]) == ("removed", "ana")
    assert ben.one(add(a_station("s9")))["outcome"] == "removed"
    assert ben.one(remove("stations", "s9"))["outcome"] == "agreed"
    assert ben.one(edit("stations", "s9", None, None, 2, kind="restore"))["outcome"] == "removed"
    assert not world.has("stations", "s9")


def test_a_phone_that_never_heard_of_the_removal_gets_a_fresh_copy(world: World) -> None:
    ana, ben, cat = world.person("Ana"), world.person("Ben"), world.person("Cat")
    ana.push([add(a_station("s9"))])
    ben.pull()
    ana.push([remove("stations", "s9")])
    cat.pull()
    world.now += KEPT_S + 2
    tended(world)
    assert [phone.pull()[0]["fresh"] for phone in (ben, cat)] == [True, False]
    assert ben.records == cat.records
    with world.database.session() as session:
        state = document_of_records(replayed(session, SITE))
        session.rollback()
        assert state == write_document(document_of(session, SITE).document)


def test_what_a_younger_removed_record_refers_to_is_kept_for_it(world: World) -> None:
    ana = world.person("Ana")
    ana.push([remove("turns", "p2.s1")], [add(a_station("s9"))], [edit("turns", "p1.s4", "station", "s9")])
    ana.push([edit("turns", "p1.s4", "station", "s4", 2)], [remove("stations", "s9")])
    world.now += KEPT_S + 2
    ana.push([edit("turns", "p1.s4", "rank", 1)], [remove("turns", "p1.s4", {"station": 3, "rank": 2})])
    ana.push([remove("stations", "s4"), remove("turns", "p1.s4")])
    assert tended(world) == Tended(0, 2)
    back = [
        edit("stations", "s4", None, None, 2, kind="restore"),
        edit("turns", "p1.s4", None, None, 2, kind="restore"),
    ]
    assert {told["outcome"] for told in ana.push(back)} == {"taken"}
