"""Sets of edits come in, and each edit is answered."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from sqlalchemy import func, select

from builders import a_station, a_turn
from pengan.engine.document.write import write_document
from pengan.web.history.replay import document_of_records, replayed
from pengan.web.problems import Problem
from pengan.web.sites.models import SiteCopy
from pengan.web.sites.operations import document_of
from pengan.web.sync import operations, taken
from pengan.web.sync.arriving import Arriving
from pengan.web.sync.models import Edit
from web.sync.crew import SITE, Phone, World, add, edit, remove, rename


def outcomes(answers: list[dict[str, object]]) -> list[object]:
    return [answer["outcome"] for answer in answers]


def edits_kept(world: World) -> int:
    with world.database.session() as session:
        return session.scalar(select(func.count()).select_from(Edit).where(Edit.person != "")) or 0


def test_an_edit_that_saw_what_is_in_force_is_taken(world: World) -> None:
    ana = world.person("Ana")
    answer = ana.one(rename("s1", "Gate"))
    assert (answer["outcome"], answer["version"], answer["revision"]) == ("taken", 2, 2)
    assert world.value("stations", "s1", "name") == "Gate"


def test_a_lost_reply_and_a_second_delivery_change_nothing(world: World) -> None:
    ana = world.person("Ana")
    call = {"sets": [{"id": "set", "site": SITE, "edits": [rename("s1", "Gate"), rename("s2", "Pond")]}]}
    first, again = ana.send(call), ana.send(call)
    assert again == first
    assert (world.revision(), edits_kept(world)) == (2, 2)


def test_an_edit_that_stands_twice_in_a_set_is_one(world: World) -> None:
    ana = world.person("Ana")
    twice = rename("s1", "Gate")
    assert [(item["outcome"], item["version"]) for item in ana.push([twice, twice])] == [("taken", 2), ("taken", 2)]


def test_nobody_is_told_of_another_ones_edit_by_its_id(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    own = rename("s1", "Gate")
    ana.one(own)
    answer = ben.one(own)
    assert (answer["outcome"], answer["code"]) == ("refused", "sync.id_taken")
    assert "version" not in answer


def test_two_edits_of_one_field_made_without_knowledge_of_each_other_are_in_dispute(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    answer = ben.one(rename("s1", "Old gate"))
    assert answer["outcome"] == "disputed"
    assert (answer["theirs"], answer["by"], answer["by_name"], answer["version"]) == ("Gate", "ana", "Ana", 2)
    assert world.value("stations", "s1", "name") == "Gate"


def test_the_same_value_twice_is_agreed(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    answer = ben.one(rename("s1", "Gate"))
    assert (answer["outcome"], answer["version"]) == ("agreed", 2)


def test_different_fields_of_one_record_merge(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    assert ben.one(edit("stations", "s1", "flow_lpm", 42))["outcome"] == "taken"
    assert (world.value("stations", "s1", "name"), world.value("stations", "s1", "flow_lpm")) == ("Gate", 42)


def test_fields_valid_only_together_have_one_version(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    now = {"run_s": 1200, "cycles": 3, "soak_s": 600}
    assert ana.one(edit("turns", "p1.s1", "run", now))["version"] == 2
    assert ben.one(edit("turns", "p1.s1", "run", now | {"cycles": 2}))["theirs"] == now
    assert world.value("turns", "p1.s1", "cycles") == 3


def test_an_own_earlier_edit_counts_as_the_version_it_wrote(world: World) -> None:
    ana = world.person("Ana")
    first = rename("s1", "Gate")
    second = rename("s1", "Main gate", seen=first["id"])
    assert outcomes(ana.push([first], [second])) == ["taken", "taken"]
    third, fourth = rename("s2", "A"), rename("s2", "B")
    fourth["seen"] = third["id"]
    assert [item["version"] for item in ana.push([third, fourth])] == [2, 3]


def test_after_a_dispute_ones_next_edit_of_the_field_is_in_dispute_too(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    first = rename("s1", "Pond")
    ben.one(first)
    assert ben.one(rename("s1", "Pond east", seen=first["id"]))["outcome"] == "disputed"


def test_somebody_elses_edit_id_is_no_version_seen(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    first = rename("s1", "Gate")
    ana.one(first)
    assert ben.one(rename("s1", "Pond", seen=first["id"]))["outcome"] == "disputed"


@pytest.mark.parametrize("seen", [99, -1, True, 10**30, "no-such-edit", None, [1], {"a": 1}])
def test_what_cannot_have_been_seen_overwrites_nothing(world: World, seen: object) -> None:
    assert world.person("Ana").one(rename("s1", "Gate", seen=seen))["outcome"] == "disputed"
    assert world.value("stations", "s1", "name") == "S1"


def test_a_set_stands_or_falls_together(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    mine = [rename("s2", "Pond"), rename("s1", "Old gate"), rename("s3", "S3")]
    first, second, third = ben.push(mine)
    assert (first["outcome"], first["with"], first["theirs"]) == ("disputed", [mine[1]["id"]], "S2")
    assert second["outcome"] == "disputed" and "with" not in second
    assert third["outcome"] == "agreed"
    assert world.value("stations", "s2", "name") == "S2"


def test_one_refused_edit_never_jams_the_queue(world: World) -> None:
    ana = world.person("Ana")
    answers = ana.push([rename("s1", "Gate")], [edit("stations", "s2", "flow_lpm", -5)], [rename("s3", "Pond")])
    assert outcomes(answers) == ["taken", "refused", "taken"]


@pytest.mark.parametrize(
    ("bad", "code"),
    [
        (edit("stations", "s1", "colour", "red"), "sync.no_such_field"),
        (edit("stations", "s1", None, "red"), "sync.no_such_field"),
        (edit("turns", "p1.s1", "run_s", 60), "sync.no_such_field"),
        (edit("turns", "p1.s1", "run", 60), "sync.wrong_shape"),
        (edit("turns", "p1.s1", "run", {"run_s": -5, "cycles": 1, "soak_s": 0}), "fault.outside_s"),
        (edit("turns", "p1.s1", "run", {"run_s": 40 * 3600}), "fault.outside_s"),
        (edit("stations", "s1", "flow_lpm", 10**7), "fault.outside_lpm"),
        (edit("stations", "s1", "flow_lpm", "much"), "fault.not_number"),
        (edit("stations", "s1", "flow_lpm", True), "fault.not_number"),
        (edit("stations", "s1", "flow_lpm", float("inf")), "fault.not_number"),
        (edit("stations", "s1", "flow_lpm", {"deep": [1]}), "fault.not_number"),
        (edit("stations", "s1", "name", None), "fault.missing"),
        (edit("stations", "s1", "supply", "nowhere"), "fault.unknown_ref"),
        (edit("stations", "s1", "number", "s2"), "fault.number_twice"),
        (edit("supplies", "town", "fed_by", "north"), "fault.supply_loop"),
        (edit("controllers", "c1", "max_current_ma", 900), "fault.no_current"),
        (edit("supplies", "north", "steady_lpm", 500), "fault.steady_over_limit"),
        (edit("site", SITE, "clock", {"zone": "Mars/Olympus"}), "clock.zone_unknown"),
        (edit("site", SITE, "latitude_deg", None), "fault.half_place"),
        (edit("valves", "s1", "name", "x"), "fault.unknown_table"),
        (edit("stations", "s99", "name", "x"), "sync.no_such_record"),
        (add(a_station("s1", name="Another")), "sync.record_exists"),
        (add(a_station("s9", colour="red")), "fault.unknown_field"),
        (edit("stations", "s9", None, [], kind="add"), "sync.not_a_record"),
        (remove("stations", "s1"), "fault.unknown_ref"),
        (remove("site", SITE), "fault.no_site"),
        (edit("stations", "s1", "name", "x", kind="settle", settles="none"), "sync.nothing_waits"),
        (rename("s1", "x", format=0), "sync.no_old_format"),
    ],
)
def test_what_breaks_a_rule_is_refused_with_the_limit_it_broke(world: World, bad: dict[str, object], code: str) -> None:
    ana = world.person("Ana")
    answer = ana.one(bad)
    assert (answer["outcome"], answer["code"]) == ("refused", code)
    assert answer["faults"][0]["code"] == code
    assert (world.revision(), edits_kept(world)) == (1, 1)


def test_a_record_comes_and_goes_with_what_hangs_on_it(world: World) -> None:
    ana = world.person("Ana")
    assert outcomes(ana.push([add(a_turn("p1", "s9")), add(a_station("s9"))])) == ["taken", "taken"]
    assert world.has("turns", "p1.s9")
    assert outcomes(ana.push([remove("stations", "s9"), remove("turns", "p1.s9")])) == ["taken", "taken"]
    assert not world.has("stations", "s9")


def test_edits_are_held_where_the_role_was_lost_meanwhile(world: World) -> None:
    ben = world.person("Ben")
    world.give("ben", "crew")
    assert ben.one(rename("s1", "Gate"))["outcome"] == "held"
    world.give("ben", None)
    assert ben.one(rename("s1", "Gate"))["outcome"] == "held"
    assert world.value("stations", "s1", "name") == "S1"


def test_an_edit_acknowledged_before_the_role_was_lost_stays_acknowledged(world: World) -> None:
    ben = world.person("Ben")
    own = rename("s1", "Gate")
    ben.one(own)
    world.give("ben", None)
    assert ben.one(own)["outcome"] == "taken"


def test_the_crew_may_write_notes_and_nothing_else(world: World) -> None:
    eva = world.person("Eva", "crew")
    assert outcomes(eva.push([edit("stations", "s1", "notes", "Head 3 leaks")], [rename("s1", "x")])) == [
        "taken",
        "held",
    ]


def test_a_stranger_cannot_tell_a_site_from_none(world: World) -> None:
    stranger = world.person("Zoe", None)
    own = rename("s1", "Gate")
    here, nowhere = stranger.push([own]), stranger.push([own], site="nowhere")
    assert here[0]["code"] == nowhere[0]["code"] == "web.no_such_site"
    assert edits_kept(world) == 0


def test_an_outbox_is_never_sent_as_somebody_else(world: World) -> None:
    ana = world.person("Ana")
    with pytest.raises(Problem) as caught:
        ana.send({"person": "ben", "sets": [{"id": "x", "site": SITE, "edits": [rename("s1", "Gate")]}]})
    assert (caught.value.status, caught.value.message.code) == (401, "sync.other_person")


def test_a_push_beyond_the_limit_is_turned_away_whole(world: World) -> None:
    ana = world.person("Ana")
    with pytest.raises(Problem) as caught:
        ana.push([rename("s1", str(n)) for n in range(60)], [rename("s1", str(n)) for n in range(60)])
    assert (caught.value.status, world.revision()) == (413, 1)


def test_the_phones_clock_is_kept_and_never_used(world: World) -> None:
    ana = world.person("Ana")
    own = rename("s1", "Gate", phone_time="2060-01-01T00:00:00Z")
    ana.one(own)
    with world.database.session() as session:
        kept = session.get_one(Edit, (SITE, own["id"]))
    assert (kept.phone_time, kept.at) == ("2060-01-01T00:00:00Z", world.now)


def test_numbers_equal_but_written_otherwise_agree(world: World) -> None:
    assert world.person("Ana").one(edit("stations", "s1", "flow_lpm", 60.0, seen=None))["outcome"] == "agreed"


def test_an_editor_is_told_what_others_changed_beside(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ben.pull()
    ana.push([edit("turns", "p1.s1", "rank", 2)], [edit("turns", "p1.s2", "rank", 2)])
    own = edit("turns", "p1.s1", "run", {"run_s": 900, "cycles": 1, "soak_s": 0})
    told = ben.send({"sets": [{"id": "set", "site": SITE, "cursor": ben.cursor, "edits": [own]}]})[0]
    assert told["outcome"] == "taken"
    assert [(item["field"], item["by"], item["by_name"]) for item in told["beside"]] == [("rank", "ana", "Ana")]


def test_pushes_at_the_same_time_are_taken_one_after_the_other(world: World) -> None:
    """Eight phones, each in a thread of its own: every edit is answered, revisions and versions have no gap."""
    phones = [world.person(f"P{n}") for n in range(8)]

    def work(phone: Phone) -> list[dict[str, object]]:
        return phone.push(*([edit("stations", "s1", "notes", f"{phone.actor.person} {n}", n + 1)] for n in range(6)))

    with ThreadPoolExecutor(8) as threads:
        answers = [answer for told in threads.map(work, phones) for answer in told]
    versions = sorted(int(str(answer["version"])) for answer in answers if answer["outcome"] == "taken")
    assert versions == list(range(2, len(versions) + 2))
    assert {answer["outcome"] for answer in answers} <= {"taken", "disputed"}
    with world.database.session() as session:
        copy = session.get_one(SiteCopy, SITE)
        assert copy.counter == 1 + len(answers)
        state = document_of_records(replayed(session, SITE))
        session.rollback()
        assert state == write_document(document_of(session, SITE).document)


def test_a_set_at_which_the_server_fails_delays_no_other(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    ana = world.person("Ana")
    poison = rename("s2", "Poison")

    def fails(_session: object, _site: str, _revision: int, edits: Sequence[Arriving]) -> None:
        if edits[0].id == poison["id"]:
            raise RuntimeError("a mistake of ours")

    monkeypatch.setattr(taken, "_listeners", [fails])
    edits = (rename("s1", "A"), poison, rename("s3", "C"))
    sets = [{"id": str(n), "site": SITE, "edits": [one]} for n, one in enumerate(edits)]
    with world.database.session() as session:
        told: Any = operations.push(session, ana.actor, {"sets": sets}, world.tick())
    assert (outcomes(told["answers"]), told["unanswered"]) == (["taken", "taken"], ["1"])
    assert (world.value("stations", "s2", "name"), world.value("stations", "s3", "name")) == ("S2", "C")
    with pytest.raises(RuntimeError):
        ana.one(poison)
    monkeypatch.undo()
    assert ana.one(poison)["outcome"] == "taken"
