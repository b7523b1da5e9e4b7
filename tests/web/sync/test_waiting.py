"""What waits for a person: disputes, edits to removed records, refused, held and parked ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from builders import a_station
from pengan.engine.document.tables import FORMAT
from pengan.web.problems import Problem
from pengan.web.sync import judging, trays, upgrades
from pengan.web.sync.arriving import Arriving
from pengan.web.sync.taking import Sender
from web.sync.crew import SITE, Row, World, add, edit, remove, rename


def settle(disputed: Row, now: object, seen: object, **more: object) -> Row:
    """A person decides about a dispute."""
    return disputed | edit(
        disputed["table"],
        disputed["record"],
        disputed["field"],
        now,
        seen,
        kind="settle",
        settles=disputed["id"],
        **more,
    )


def dispute(world: World) -> Row:
    """Ana said Gate, Ben said Pond."""
    world.person("Ana").one(rename("s1", "Gate"))
    own = rename("s1", "Pond")
    assert world.person("Ben").one(own)["outcome"] == "disputed"
    return own


def test_a_dispute_is_pulled_with_both_values_and_names(world: World) -> None:
    own = dispute(world)
    cat = world.person("Cat")
    cat.pull()
    waits = cat.waiting[own["id"]]
    assert (waits["open"], waits["edit"]["now"], waits["edit"]["person"]) == (True, "Pond", "ben")
    assert (waits["answer"]["theirs"], waits["answer"]["by"]) == ("Gate", "ana")


@pytest.mark.parametrize(("value", "outcome"), [("Pond", "taken"), ("Gate", "agreed"), ("Lake", "taken")])
def test_settling_is_a_versioned_edit_and_closes_the_dispute(world: World, value: str, outcome: str) -> None:
    own = dispute(world)
    cat = world.person("Cat")
    cat.pull()
    before = cat.cursor
    assert cat.one(settle(own, value, 2))["outcome"] == outcome
    assert world.value("stations", "s1", "name") == value
    cat.pull()
    assert (cat.waiting[own["id"]]["open"], cat.waiting[own["id"]]["closed_how"]) == (False, "settled")
    assert cat.waiting[own["id"]]["closed_by"] == "cat"
    assert before is not None and cat.cursor is not None and cat.cursor > before


def test_two_who_settle_a_dispute_otherwise_are_in_dispute_themselves(world: World) -> None:
    own = dispute(world)
    cat, dan = world.person("Cat"), world.person("Dan")
    assert cat.one(settle(own, "Pond", 2))["outcome"] == "taken"
    assert dan.one(settle(own, "Lake", 2))["outcome"] == "disputed"


def test_a_dispute_can_be_discarded(world: World) -> None:
    own = dispute(world)
    cat = world.person("Cat")
    assert cat.one(settle(own, None, None) | {"field": None})["outcome"] == "agreed"
    cat.pull()
    assert own["id"] not in cat.waiting
    assert world.value("stations", "s1", "name") == "Gate"


def test_an_edit_to_a_removed_record_is_kept_and_can_be_restored_and_applied(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(remove("turns", "p2.s1"))
    late = edit("turns", "p2.s1", "run", {"run_s": 900, "cycles": 1, "soak_s": 0})
    answer = ben.one(late)
    assert (answer["outcome"], answer["by"], answer["by_name"]) == ("removed", "ana", "Ana")
    assert not world.has("turns", "p2.s1")
    back = edit("turns", "p2.s1", None, None, 2, kind="restore")
    told = ben.push([back, settle(late, late["now"], 1)])
    assert [item["outcome"] for item in told] == ["taken", "taken"]
    assert world.value("turns", "p2.s1", "run_s") == 900
    ben.pull()
    assert ben.records["turns", "p2.s1"]["run_s"] == 900
    assert late["id"] not in ben.waiting


def test_a_removal_that_did_not_know_of_an_edit_is_in_dispute(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(edit("turns", "p2.s1", "run", {"run_s": 900, "cycles": 1, "soak_s": 0}))
    gone = remove("turns", "p2.s1")
    answer = ben.one(gone)
    assert (answer["outcome"], answer["by"]) == ("disputed", "ana")
    assert answer["theirs"]["run"]["run_s"] == 900
    assert world.has("turns", "p2.s1")
    after_all = settle(gone | {"field": "removed"}, True, {"run": 2})
    assert ben.one(after_all)["outcome"] == "taken"
    assert not world.has("turns", "p2.s1")


def test_a_removal_that_knew_of_the_edit_is_taken(world: World) -> None:
    ana = world.person("Ana")
    own = edit("turns", "p2.s1", "run", {"run_s": 900, "cycles": 1, "soak_s": 0})
    ana.one(own)
    assert ana.one(remove("turns", "p2.s1", {"run": own["id"]}))["outcome"] == "taken"


def test_keeping_a_record_settles_a_disputed_removal(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(edit("turns", "p2.s1", "rank", 2))
    gone = remove("turns", "p2.s1")
    ben.one(gone)
    assert ana.one(settle(gone | {"field": "removed"}, False, 1))["outcome"] == "agreed"
    ana.pull()
    assert gone["id"] not in ana.waiting and ("turns", "p2.s1") in ana.records


def test_removing_twice_is_agreed_and_a_second_restore_too(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    assert ana.one(remove("turns", "p2.s1"))["version"] == 2
    assert ben.one(remove("turns", "p2.s1"))["outcome"] == "agreed"
    assert ben.one(edit("turns", "p2.s1", None, None, 2, kind="restore"))["version"] == 3
    assert ana.one(edit("turns", "p2.s1", None, None, 2, kind="restore"))["outcome"] == "agreed"


def test_a_late_removal_does_not_take_back_a_restore_it_never_saw(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(remove("turns", "p2.s1"))
    ana.one(edit("turns", "p2.s1", None, None, 2, kind="restore"))
    assert ben.one(remove("turns", "p2.s1"))["outcome"] == "disputed"


def test_a_record_that_is_removed_is_not_added_again(world: World) -> None:
    ana = world.person("Ana")
    ana.push([add(a_station("s9"))], [remove("stations", "s9")])
    assert ana.one(add(a_station("s9")))["outcome"] == "removed"


def test_what_is_refused_goes_to_a_tray_with_the_limits_it_broke(world: World) -> None:
    ben, cat = world.person("Ben"), world.person("Cat")
    bad = edit("stations", "s1", "flow_lpm", -5)
    ben.one(bad)
    ben.pull()
    assert ben.waiting[bad["id"]]["answer"]["code"] == "fault.outside_lpm"
    assert ben.decide(bad["id"], "discard")[0]["outcome"] == "refused"
    ben.pull()
    assert (ben.waiting[bad["id"]]["closed_how"], ben.waiting[bad["id"]]["closed_by"]) == ("discarded", "ben")
    with pytest.raises(Problem) as caught:
        cat.decide(bad["id"], "discard")
    assert caught.value.status == 409


def test_what_is_held_is_seen_by_managers_who_accept_it_with_both_names(world: World) -> None:
    ben, mia, cat = world.person("Ben"), world.person("Mia", "manager"), world.person("Cat")
    world.give("ben", "crew")
    held = [rename("s1", "Gate"), rename("s2", "Pond")]
    ben.push(held)
    mia.pull(), cat.pull()
    assert set(mia.waiting) == {item["id"] for item in held}
    assert cat.waiting == {}
    with pytest.raises(Problem) as caught:
        cat.decide(held[0]["id"], "accept")
    assert caught.value.status == 403
    assert [item["outcome"] for item in mia.decide(held[1]["id"], "accept")] == ["taken", "taken"]
    assert (world.value("stations", "s1", "name"), world.value("stations", "s2", "name")) == ("Gate", "Pond")
    mia.pull()
    assert {item["closed_by"] for item in mia.waiting.values()} == {"mia"}
    assert ben.push(held)[0]["outcome"] == "taken"


def test_what_is_held_can_be_declined(world: World) -> None:
    ben, mia = world.person("Ben"), world.person("Mia", "manager")
    world.give("ben", "crew")
    held = rename("s1", "Gate")
    ben.one(held)
    mia.decide(held["id"], "decline")
    mia.pull()
    ben.pull()
    assert mia.waiting == {}
    assert world.value("stations", "s1", "name") == "S1"


def test_what_was_held_while_somebody_else_edited_is_in_dispute_when_accepted(world: World) -> None:
    ben, mia = world.person("Ben"), world.person("Mia", "manager")
    world.give("ben", "crew")
    held = rename("s1", "Gate")
    ben.one(held)
    mia.one(rename("s1", "Pond"))
    assert mia.decide(held["id"], "accept")[0]["outcome"] == "disputed"
    mia.pull()
    assert (mia.waiting[held["id"]]["tray"], mia.waiting[held["id"]]["open"]) == ("disputed", True)


def test_the_crew_cannot_settle(world: World) -> None:
    own = dispute(world)
    assert world.person("Eva", "crew").one(settle(own, "Pond", 2))["outcome"] == "held"


@pytest.fixture
def old_format() -> Iterator[None]:
    """Once, a station's flow stood in litres an hour, and its name was called title."""

    @upgrades.upgrader(FORMAT - 1)
    def newer(old: Arriving) -> Arriving:
        if old.field == "flow_lph" and isinstance(old.now, int):
            return replace(old, field="flow_lpm", now=old.now / 60)
        return replace(old, field="name") if old.field == "title" else old

    yield
    upgrades.forget_upgrader(FORMAT - 1)


@pytest.mark.usefixtures("old_format")
def test_an_edit_in_an_old_format_is_upgraded_and_kept_as_it_came(world: World) -> None:
    ana = world.person("Ana")
    old = edit("stations", "s1", "flow_lph", 2400, format=FORMAT - 1)
    assert ana.one(old)["outcome"] == "taken"
    assert world.value("stations", "s1", "flow_lpm") == 40
    assert ana.one(edit("stations", "s1", "title", "Gate", format=FORMAT - 1))["outcome"] == "taken"
    assert ana.one(rename("s1", "Main gate", seen=2))["outcome"] == "taken"


@pytest.mark.usefixtures("old_format")
def test_an_old_edit_is_judged_by_todays_rules(world: World) -> None:
    answer = world.person("Ana").one(edit("stations", "s1", "flow_lph", 60 * 10**6, format=FORMAT - 1))
    assert (answer["code"], answer["faults"][0]["field"]) == ("fault.outside_lpm", "flow_lpm")


def test_an_edit_in_a_newer_format_is_parked_until_the_server_knows_it(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    ana = world.person("Ana")
    new = rename("s1", "Gate", format=FORMAT + 1)
    with_it = rename("s2", "Pond")
    told = ana.push([new, with_it], [rename("s3", "Lake")])
    assert [item["outcome"] for item in told] == ["parked", "parked", "taken"]
    assert (told[0]["format"], told[1]["with"]) == (FORMAT, [new["id"]])
    with world.database.session() as session:
        assert trays.retry_parked(session, SITE, Sender("", None, world.tick())) == 0
    monkeypatch.setattr(judging, "is_newer", lambda _edit: False)
    monkeypatch.setattr(judging, "upgraded", lambda edit: replace(edit, format=FORMAT))
    monkeypatch.setattr(trays, "FORMAT", FORMAT + 1)
    with world.database.session() as session:
        assert trays.retry_parked(session, SITE, Sender("", None, world.tick())) == 2
    assert (world.value("stations", "s1", "name"), world.value("stations", "s2", "name")) == ("Gate", "Pond")
    assert ana.one(new)["outcome"] == "taken"
