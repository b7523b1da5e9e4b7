"""Changes go out: pages, fresh copies, and cursors that never fall."""

from __future__ import annotations

import pytest
from sqlalchemy import select, update

from builders import a_station
from pengan.web.people.models import TeamSite
from pengan.web.problems import Problem
from pengan.web.sites.models import SiteCopy
from pengan.web.sync import operations
from web.sync.crew import SITE, START, Phone, World, add, edit, remove, rename


def same(one: Phone, other: Phone) -> bool:
    return (one.records, one.versions, one.cursor) == (other.records, other.versions, other.cursor)


def test_a_fresh_copy_is_the_whole_site(world: World) -> None:
    ana = world.person("Ana")
    pages = ana.pull()
    assert [page["fresh"] for page in pages] == [True]
    assert len(ana.records) == 15
    assert ana.records["stations", "s1"]["name"] == "S1"


@pytest.mark.parametrize("limit", [1, 2, 4, 14, 15, 16])
def test_pages_of_any_length_give_the_same(world: World, limit: int) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.pull()
    ben.pull(limit)
    assert same(ana, ben)


def test_changes_alone_give_the_same_as_a_fresh_copy(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.pull()
    ben.push([rename("s1", "Gate"), add(a_station("s9"))], [remove("turns", "p2.s1")])
    page = ana.pull()[0]
    assert (page["fresh"], len(page["records"])) == (False, 2)
    assert [(gone["id"], gone["by"], gone["version"]) for gone in page["removals"]] == [("p2.s1", "ben", 2)]
    assert page["people"]["ben"] == "Ben"
    ben.pull()
    assert same(ana, ben)
    assert ana.versions["stations", "s1"] == {"name": 2}


def test_nothing_new_is_an_empty_page(world: World) -> None:
    ana = world.person("Ana")
    ana.pull()
    page = ana.pull()[0]
    assert (page["records"], page["removals"], page["fresh"]) == ([], [], False)


def test_what_changes_while_pages_are_turned_is_not_lost(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    after = None
    for turn in range(40):
        page = ana.page(after=after, limit=3)
        ana.keep(page)
        after = page["next"]
        if turn == 1:
            ben.push([rename("s1", "Gate"), remove("turns", "p2.s1")])
        if after is None:
            break
    ana.cursor = page["cursor"]
    ben.pull()
    assert same(ana, ben)


def test_access_taken_and_given_back_means_a_fresh_copy(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.pull()
    world.give("ana", None)
    with pytest.raises(Problem) as caught:
        ana.pull()
    assert caught.value.status == 404
    ben.one(rename("s1", "Gate"))
    world.give("ana", "lead")
    assert ana.pull()[0]["fresh"]
    assert ana.records["stations", "s1"]["name"] == "Gate"


def test_a_cursor_older_than_the_kept_log_means_a_fresh_copy(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.pull()
    ben.one(rename("s1", "Gate"))
    with world.database.session() as session, session.begin():
        session.execute(update(SiteCopy).values(kept_from=2))
    assert ana.pull()[0]["fresh"]


def test_a_cursor_from_before_a_restore_means_a_fresh_copy(world: World) -> None:
    ana = world.person("Ana")
    ana.pull()
    ana.cursor = 99
    assert ana.pull()[0]["fresh"]
    with world.database.session() as session, session.begin():
        session.execute(update(SiteCopy).values(epoch="restored"))
    assert ana.pull()[0]["fresh"]
    assert ana.fresh == 3


@pytest.mark.parametrize("after", ["x", "s~1~0~1", "s~1~0~1~2", "s~a~b~c~d~e", "s~1~0~99999999999~1~x", "s~1~0~-7~1~x"])
def test_a_page_that_never_was_is_a_problem(world: World, after: str) -> None:
    ana = world.person("Ana")
    ana.pull()
    with pytest.raises(Problem) as caught:
        ana.page(after=after)
    assert caught.value.message.code == "sync.no_such_page"


def test_a_dispute_moves_the_cursor_but_not_the_documents_revision(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    ben.one(rename("s1", "Pond"))
    page = ana.pull()[0]
    assert (page["cursor"], page["revision"], len(page["waiting"])) == (3, 2, 1)


def test_trays_are_shown_to_whom_they_concern(world: World) -> None:
    ben, mia, eva = world.person("Ben"), world.person("Mia", "manager"), world.person("Eva", "crew")
    refused, held = edit("stations", "s1", "flow_lpm", -1), rename("s1", "Gate")
    ben.one(refused)
    eva.one(held)
    for phone in (ben, mia, eva):
        phone.pull()
    assert [set(phone.waiting) for phone in (ben, mia, eva)] == [
        {refused["id"]},
        {refused["id"], held["id"]},
        {held["id"]},
    ]


def hello(phone: Phone, **asked: object) -> dict[str, object]:
    call = {"protocol": 1, "site": SITE, "person": None, "scope": phone.scope, "cursor": phone.cursor, **asked}
    with phone.world.database.session() as session:
        return operations.hello(session, phone.actor, call, phone.world.tick())


def test_hello_tells_how_to_go_on(world: World) -> None:
    ana = world.person("Ana")
    first = hello(ana)
    assert (first["outcome"], first["revision"], first["role"]) == ("ok", 1, "lead")
    ana.pull()
    assert hello(ana)["outcome"] == "ok"
    assert hello(ana, protocol=2)["outcome"] == "update_needed"
    assert hello(ana, person="ben")["outcome"] == "signed_out"
    assert hello(ana, cursor=99)["outcome"] == "start_over"
    world.give("ana", "crew")
    assert hello(ana)["outcome"] == "start_over"
    with world.database.session() as session:
        nobody = operations.hello(session, None, {"protocol": 1, "site": SITE}, world.tick())
    assert nobody["outcome"] == "signed_out"


def test_revisions_rise_by_one_with_every_set(world: World) -> None:
    ana = world.person("Ana")
    ana.push([rename("s1", "A")], [rename("s2", "B")], [edit("stations", "s3", "flow_lpm", -1)])
    with world.database.session() as session:
        copy = session.scalars(select(SiteCopy)).one()
    assert (copy.counter, copy.revision) == (4, 3)
    assert world.now > START


def test_a_stranger_who_reads_an_open_site_is_told_nobodys_name(world: World) -> None:
    ana = world.person("Ana")
    ana.push([remove("turns", "p2.s1")], [rename("s1", "Gate")])
    ana.push([rename("s1", "Pond")])
    with world.database.session() as session:
        with session.begin():
            session.execute(update(TeamSite).values(open_to_read=True))
        first = operations.pull(session, None, {"site": SITE})
        page = operations.pull(session, None, {"site": SITE, "cursor": 1, "scope": first["scope"]})
    assert [(gone["id"], gone.get("by")) for gone in page["removals"]] == [("p2.s1", None)]
    assert (page["people"], page["waiting"], page["role"]) == ({}, [], None)
