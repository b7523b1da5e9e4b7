"""The history: who, what, when; undone as a new set; the document as it stood."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import select

from builders import a_station, a_turn
from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document
from pengan.web.history import operations
from pengan.web.history.replay import document_of_records, replayed
from pengan.web.problems import Problem
from pengan.web.sites.operations import document_of, put_document
from pengan.web.sync.models import Edit
from web.sync.crew import SITE, Phone, Row, World, add, edit, grounds, remove, rename


def history(phone: Phone, before: int | None = None, limit: int = 100, **filters: Any) -> Row:
    with phone.world.database.session() as session:
        return operations.history(session, phone.actor, SITE, before, limit, filters)


def undo(phone: Phone, which: str) -> list[Row]:
    with phone.world.database.session() as session:
        told: Any = operations.undo(session, phone.actor, SITE, which, phone.world.tick())
    answers: list[Row] = told["answers"]
    return answers


def then(phone: Phone, **when: int) -> Any:
    with phone.world.database.session() as session:
        return operations.document_at(session, phone.actor, SITE, **when)


def served(world: World) -> dict[str, Any]:
    with world.database.session() as session:
        return write_document(document_of(session, SITE).document)


def busy(world: World) -> Phone:
    """A site on which all kinds of edits were made."""
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.push([rename("s1", "Gate")], [add(a_station("s9")), add(a_turn("p1", "s9", cycles=2))])
    ben.push([rename("s1", "Pond")], [edit("turns", "p1.s2", "run", {"run_s": 900, "cycles": 3, "soak_s": 60})])
    ana.push([remove("turns", "p2.s1")], [edit("stations", "s2", "flow_lpm", -1)])
    ben.push([edit("turns", "p2.s1", None, None, 2, kind="restore"), edit("turns", "p2.s1", "rank", 3)])
    ana.push([remove("turns", "p1.s9"), remove("stations", "s9")])
    return ana


def test_every_edit_is_told_with_who_when_from_where_and_what_came_of_it(world: World) -> None:
    ana = world.person("Ana")
    own = rename("s1", "Gate", was="S1", phone_time="half past nine")
    ana.one(own)
    page = history(ana, limit=1)
    told = page["edits"][0]
    assert told["id"] == own["id"]
    assert (told["person"], told["device"], told["at"]) == ("ana", "ana-phone", world.now)
    assert (told["phone_time"], told["before"], told["now"], told["outcome"]) == (
        "half past nine",
        "S1",
        "Gate",
        "taken",
    )
    assert page["people"] == {"ana": "Ana"}


def test_refused_and_disputed_edits_are_in_the_history_too(world: World) -> None:
    ana = busy(world)
    outcomes = {told["outcome"] for told in history(ana)["edits"]}
    assert outcomes == {"taken", "disputed", "refused"}


def test_pages_of_the_history_hold_whole_sets_and_lose_nothing(world: World) -> None:
    ana = busy(world)
    whole = [told["id"] for told in history(ana, limit=200)["edits"]]
    paged: list[str] = []
    before = None
    while True:
        page = history(ana, before, 2)
        paged.extend(told["id"] for told in page["edits"])
        before = page["next"]
        if before is None:
            break
    assert paged == whole


def test_the_history_can_be_looked_through(world: World) -> None:
    ana = busy(world)
    assert {told["person"] for told in history(ana, person="ben")["edits"]} == {"ben"}
    turn = history(ana, table="turns", record="p2.s1")["edits"]
    assert [told["kind"] for told in turn] == ["set", "restore", "remove", "add"]
    assert {told["outcome"] for told in history(ana, outcome="refused")["edits"]} == {"refused"}
    start = min(told["at"] for told in history(ana)["edits"])
    assert {told["at"] for told in history(ana, until=start + 1)["edits"]} == {start}


def test_replayed_from_nothing_it_gives_todays_state(world: World) -> None:
    busy(world)
    with world.database.session() as session:
        records = replayed(session, SITE)
    assert document_of_records(records) == served(world)
    assert records["turns", "p2.s1"].versions == {"removed": 3, "rank": 2}


def test_versions_have_no_gaps(world: World) -> None:
    busy(world)
    with world.database.session() as session:
        taken = session.scalars(select(Edit).where(Edit.outcome == "taken").order_by(Edit.revision, Edit.place)).all()
    newest: dict[tuple[str, str, str], int] = {}
    for item in taken:
        group = (item.record_table, item.record, item.field or "removed")
        assert item.version == newest.get(group, 0 if item.kind == "add" else 1) + 1
        assert item.saw == item.version - 1
        newest[group] = item.version


def test_the_document_as_it_stood(world: World) -> None:
    ana = world.person("Ana")
    stood = [(world.revision(), world.now, served(world))]
    for sets in (
        [rename("s1", "Gate")],
        [add(a_station("s9"))],
        [remove("turns", "p2.s1")],
        [remove("stations", "s9")],
    ):
        ana.push(sets)
        stood.append((world.revision(), world.now, served(world)))
    for revision, at, document in stood:
        assert then(ana, revision=revision) == {"revision": revision, "document": document}
        assert then(ana, at=at)["document"] == document
        read_document(document)
    assert then(ana)["document"] == stood[-1][2]
    with pytest.raises(Problem) as caught:
        then(ana, at=5)
    assert caught.value.message.code == "history.not_then"


def test_an_edit_undone_is_a_new_set(world: World) -> None:
    ana = world.person("Ana")
    own = rename("s1", "Gate")
    ana.one(own)
    answer = undo(ana, own["id"])[0]
    assert (answer["outcome"], answer["version"]) == ("taken", 3)
    assert world.value("stations", "s1", "name") == "S1"
    newest = history(ana, limit=1)["edits"][0]
    assert (newest["undoes"], newest["now"]) == (own["id"], "S1")
    undo(ana, answer["id"])
    assert world.value("stations", "s1", "name") == "Gate"


def test_a_whole_set_is_undone_at_once(world: World) -> None:
    ana = world.person("Ana")
    before = served(world)
    first = rename("s1", "A")
    edits = [first, rename("s1", "B", seen=first["id"]), add(a_station("s9")), add(a_turn("p1", "s9"))]
    told = ana.push([*edits, edit("stations", "s9", "notes", "new", 1), remove("turns", "p2.s1")])
    assert {item["outcome"] for item in told} == {"taken"}
    assert {item["outcome"] for item in undo(ana, told[0]["set"])} == {"taken"}
    assert served(world) == before


def test_undoing_does_not_overwrite_what_somebody_changed_since(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    own = rename("s1", "Gate")
    ana.one(own)
    ben.one(rename("s1", "Pond", seen=2))
    assert undo(ana, own["id"])[0]["outcome"] == "disputed"
    assert world.value("stations", "s1", "name") == "Pond"


def test_a_record_added_and_edited_by_another_is_not_undone_unseen(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    own = add(a_station("s9"))
    ana.one(own)
    ben.one(rename("s9", "Pond"))
    assert undo(ana, own["id"])[0]["outcome"] == "disputed"


def test_what_was_never_taken_cannot_be_undone(world: World) -> None:
    ana = world.person("Ana")
    bad = edit("stations", "s1", "flow_lpm", -1)
    ana.one(bad)
    with pytest.raises(Problem) as caught:
        undo(ana, bad["id"])
    assert caught.value.status == 404


def test_undoing_needs_the_right_to_edit(world: World) -> None:
    own = rename("s1", "Gate")
    world.person("Ana").one(own)
    with pytest.raises(Problem) as caught:
        undo(world.person("Eva", "crew"), own["id"])
    assert caught.value.status == 403


def test_a_document_loaded_again_is_a_set_of_edits(world: World) -> None:
    ana = world.person("Ana")
    ana.push([remove("turns", "p2.s1")], [add(a_station("s9"))])
    other = grounds()
    next(row for row in other["records"] if row["id"] == "s1")["name"] = "Gate"
    with world.database.session() as session:
        assert put_document(session, other, "ana", world.tick()).revision == 4
        assert put_document(session, other, "ana", world.tick()).revision == 4
    told = {(item["kind"], item["record"], item["field"]) for item in history(ana, limit=3)["edits"]}
    assert told == {("restore", "p2.s1", "removed"), ("remove", "s9", "removed"), ("set", "s1", "name")}
    with world.database.session() as session:
        assert document_of_records(replayed(session, SITE)) == served(world)
