"""Repairs: what everybody who works at a site may write down, take and see to, offline like any other edit."""

from __future__ import annotations

from typing import Any

import pytest

from pengan.engine.document.work_tables import FOUND
from pengan.engine.journal.entry import Found
from web.sync.crew import World, add, edit, remove


def a_repair(id: str = "r1", **fields: Any) -> dict[str, Any]:
    return {"table": "repairs", "id": id, "station": "s1", "found": "head", "count": 2, **fields}


def test_what_may_be_broken_is_what_the_journal_knows() -> None:
    assert tuple(Found) == FOUND


def test_the_crew_notes_takes_and_finishes_a_repair(world: World) -> None:
    eva = world.person("Eva", "crew")
    assert eva.one(add(a_repair()))["outcome"] == "taken"
    taken = eva.push([edit("repairs", "r1", "state", "in_hand"), edit("repairs", "r1", "owner", "Eva")])
    assert [answer["outcome"] for answer in taken] == ["taken", "taken"]
    assert eva.one(edit("repairs", "r1", "state", "done", seen=2))["outcome"] == "taken"
    assert (world.value("repairs", "r1", "state"), world.value("repairs", "r1", "owner")) == ("done", "Eva")


def test_two_who_take_one_repair_without_knowing_of_each_other_hear_of_it(world: World) -> None:
    eva, rui = world.person("Eva", "crew"), world.person("Rui", "crew")
    eva.one(add(a_repair()))
    assert eva.one(edit("repairs", "r1", "owner", "Eva"))["outcome"] == "taken"
    assert rui.one(edit("repairs", "r1", "owner", "Rui"))["outcome"] == "disputed"


def test_a_repair_can_be_undone_by_the_crew_and_gives_no_right_to_anything_else(world: World) -> None:
    eva = world.person("Eva", "crew")
    eva.one(add(a_repair()))
    both = eva.push([remove("repairs", "r1"), edit("stations", "s1", "name", "Gate")], [remove("repairs", "r1")])
    assert [answer["outcome"] for answer in both] == ["held", "held", "taken"]
    assert not world.has("repairs", "r1")


def test_a_stranger_notes_none(world: World) -> None:
    answer = world.person("Zoe", None).one(add(a_repair()))
    assert (answer["outcome"], answer["code"]) == ("refused", "web.no_such_site")


@pytest.mark.parametrize(
    ("field", "value"), [("found", "ghost"), ("count", 0), ("count", 1000), ("state", "lost"), ("station", "nowhere")]
)
def test_what_cannot_be_is_refused_with_its_field(world: World, field: str, value: object) -> None:
    answer = world.person("Eva", "crew").one(add(a_repair(**{field: value})))
    assert (answer["outcome"], answer["faults"][0]["field"]) == ("refused", field)
    assert not world.has("repairs", "r1")
