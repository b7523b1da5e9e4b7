"""What went wrong elsewhere, each as a test: the failures of other synchronising systems that concern the server."""

from __future__ import annotations

from threading import Thread
from typing import Any

import pytest
from sqlalchemy import text

from sync.history import PULL, PUSH, History
from sync.ledger import edits_of
from sync.line import Delivery
from sync.quiet import check_at_rest, come_to_rest, fresh_copy
from sync.world import shared_of

Row = dict[str, Any]
ANA, BEN, CAI, BENS_OTHER, DORA = range(5)
NAME = {"kind": "set", "table": "stations", "record": "s1", "field": "name"}
TURN = {"table": "turns", "record": "p1.s1"}


@pytest.fixture(autouse=True)
def all_promises_hold_at_the_end(crew: History) -> Any:
    """Whatever a test did: once all is quiet, the twelve promises hold."""
    yield
    come_to_rest(crew)
    check_at_rest(crew)


def outcomes(crew: History, phone: int, *edits: str) -> list[str]:
    """What became of a phone's edits."""
    answers = crew.phone(phone).kept["answers"]
    return [answers[edit]["outcome"] if edit in answers else "no answer" for edit in edits]


def make(crew: History, phone: int, *edits: Row) -> list[str]:
    """One set of edits into a phone's outbox."""
    return crew.make(phone, edits)


def name_of(crew: History) -> Any:
    """The first station's name, as the server has it."""
    return fresh_copy(crew).records["stations/s1"]["name"]


def test_a_phone_clock_years_ahead_decides_nothing(crew: History) -> None:
    crew.shift_clock(BEN, 34 * 365 * 86_400)
    make(crew, BEN, NAME | {"now": "From 2060"})
    crew.push(BEN)
    crew.pull(CAI)
    later = make(crew, CAI, NAME | {"now": "From today"})
    crew.push(CAI)
    assert (outcomes(crew, CAI, *later), name_of(crew)) == (["taken"], "From today")


def test_a_bad_set_in_the_middle_leaves_no_counter_bumped_and_holds_nothing_up(crew: History) -> None:
    first = make(crew, BEN, NAME | {"now": "One"})
    bad = make(
        crew, BEN, NAME | {"record": "s2", "now": "Good"}, NAME | {"record": "s3", "field": "flow_lpm", "now": -5}
    )
    last = make(crew, BEN, NAME | {"record": "s2", "now": "Two"})
    crew.push(BEN)
    assert outcomes(crew, BEN, *first, *bad, *last) == ["taken", "refused", "refused", "taken"]
    copy = fresh_copy(crew)
    assert copy.kept["versions"]["stations/s2"] == {"name": 2}
    assert copy.records["stations/s2"]["name"] == "Two"


def test_a_backup_on_a_second_phone_makes_two_phones_of_one_and_no_harm(crew: History) -> None:
    shared = make(crew, BEN, NAME | {"now": "Before the backup"})
    crew.clone(BEN)
    twin = len(crew.phones) - 1
    mine = make(crew, BEN, NAME | {"record": "s2", "now": "On the old phone"})
    theirs = make(crew, twin, NAME | {"record": "s3", "now": "On the new phone"})
    crew.push_at_once(BEN, twin)
    assert outcomes(crew, BEN, *shared, *mine) == outcomes(crew, twin, *shared, *theirs) == ["taken", "taken"]


def test_a_phone_with_an_old_backup_gets_no_removed_record_back(crew: History) -> None:
    crew.clone(BEN)
    twin = len(crew.phones) - 1
    make(crew, CAI, {"kind": "remove", **TURN})
    crew.push(CAI)
    assert "turns/p1.s1" in crew.phone(twin).records
    crew.pull(twin)
    assert "turns/p1.s1" not in crew.phone(twin).records


@pytest.mark.parametrize("pulls_between", [False, True])
def test_nobody_is_in_dispute_with_themselves_over_a_removal_made_twice(crew: History, pulls_between: bool) -> None:
    """Edited, removed, synchronised, brought back, removed again: all by one phone, so nothing was unknown to it."""
    edits = make(crew, BEN, TURN | {"kind": "set", "field": "run", "now": {"run_s": 1500}})
    if pulls_between:
        crew.push(BEN)
        crew.pull(BEN)
    edits += make(crew, BEN, {"kind": "remove", **TURN})
    crew.push(BEN)
    crew.pull(BEN)
    edits += make(crew, BEN, {"kind": "restore", **TURN})
    edits += make(crew, BEN, {"kind": "remove", **TURN})
    crew.push(BEN)
    assert outcomes(crew, BEN, *edits) == ["taken"] * 4


def test_two_tabs_draining_one_outbox_at_once_do_it_once(crew: History) -> None:
    edits = make(crew, BEN, NAME | {"now": "Once"})
    crew.clone(BEN)
    twin = len(crew.phones) - 1
    crew.push_at_once(BEN, twin)
    assert crew.phone(BEN).kept["answers"] == crew.phone(twin).kept["answers"]
    assert outcomes(crew, BEN, *edits) == ["taken"]


@pytest.mark.parametrize("delivery", [Delivery.REPLY_LOST, Delivery.DOUBLED, Delivery.LATE])
def test_a_retry_after_a_lost_reply_is_the_same_edit(crew: History, delivery: Delivery) -> None:
    edits = make(crew, BEN, NAME | {"now": "Once"})
    crew.push(BEN, delivery)
    crew.push(BEN)
    crew.let_through(0)
    assert outcomes(crew, BEN, *edits) == ["taken"]
    assert fresh_copy(crew).kept["versions"]["stations/s1"] == {"name": 2}


@pytest.mark.parametrize("delivery", [Delivery.LOST, Delivery.LOGIN_PAGE])
def test_no_answer_and_a_hotels_login_page_leave_the_outbox_alone(crew: History, delivery: Delivery) -> None:
    edits = make(crew, BEN, NAME | {"now": "Kept"})
    crew.push(BEN, delivery)
    assert crew.phone(BEN).places_of(edits[0]) == ["outbox"]
    crew.push(BEN)
    assert outcomes(crew, BEN, *edits) == ["taken"]


def test_a_new_token_of_the_same_person_goes_on_with_their_outbox(crew: History) -> None:
    edits = make(crew, BEN, NAME | {"now": "Ben's"})
    other = crew.phones[BENS_OTHER][0]
    assert crew.grounds.members[other].person == crew.phone(BEN).kept["person"]
    crew.push(BEN)
    assert outcomes(crew, BEN, *edits) == ["taken"]


def test_nobody_sends_anothers_outbox_as_their_own(crew: History) -> None:
    make(crew, BEN, NAME | {"now": "Ben's"})
    push = crew.phone(BEN).next_push()
    reply = crew.line.deliver(crew._request(CAI, PUSH, push or {}))
    assert (reply.status, reply.ours) == (401, True)
    assert name_of(crew) == "S1"
    edits = edits_of(shared_of(crew.app).database.engine, crew.grounds.site)
    assert {edit["person"] for edit in edits} == {""}, "only the document with which the site began"


def test_a_reader_faster_than_a_writers_commit_misses_nothing(crew: History) -> None:
    stop: list[bool] = []

    def read_on() -> None:
        for _ in range(400):
            if stop:
                return
            crew.pull(ANA)

    reader = Thread(target=read_on)
    reader.start()
    for round_ in range(12):
        make(crew, BEN, NAME | {"record": "s1", "now": f"B{round_}"})
        make(crew, CAI, NAME | {"record": "s2", "now": f"C{round_}"})
        crew.push_at_once(BEN, CAI)
    stop.append(True)
    reader.join(60)
    crew.pull(ANA)
    truth = fresh_copy(crew, "ben")
    assert crew.phone(ANA).records == truth.records
    assert [truth.records[f"stations/s{n}"]["name"] for n in (1, 2)] == ["B11", "C11"]


def test_a_cursor_older_than_what_is_kept_gets_a_fresh_copy(crew: History) -> None:
    make(crew, CAI, {"kind": "remove", **TURN})
    crew.push(CAI)
    with shared_of(crew.app).database.engine.begin() as line:
        line.execute(text("UPDATE site_copies SET kept_from = counter WHERE site = :site"), {"site": crew.grounds.site})
    answer = crew.line.deliver(crew._request(BEN, PULL, crew.phone(BEN).next_pull()))
    assert answer.body["fresh"] is True
    crew.pull(BEN)
    assert "turns/p1.s1" not in crew.phone(BEN).records


def test_pages_of_a_pull_hang_together_though_the_site_changes_between_them(crew: History) -> None:
    asking = crew.phone(ANA).next_pull(limit=2) | {"cursor": None}
    pages = [crew.line.deliver(crew._request(ANA, PULL, asking)).body]
    for round_ in range(30):
        if pages[-1]["next"] is None:
            break
        make(crew, BEN, NAME | {"record": f"s{round_ % 3 + 1}", "now": f"Changed {round_}"})
        crew.push(BEN)
        ask = asking | {"after": pages[-1]["next"]}
        pages.append(crew.line.deliver(crew._request(ANA, PULL, ask)).body)
    assert pages[-1]["next"] is None
    crew.phone(ANA).take_pull(pages)
    crew.pull(ANA)
    assert crew.phone(ANA).records == fresh_copy(crew, "ben").records


def test_access_taken_and_given_back_misses_nothing(crew: History) -> None:
    crew.change_role(1, 3)  # Cai has no role any more
    make(crew, BEN, {"kind": "remove", **TURN})
    make(crew, BEN, NAME | {"now": "Meanwhile"})
    crew.push(BEN)
    crew.change_role(1, 1)
    assert crew.pull(CAI)
    truth = fresh_copy(crew)
    assert (crew.phone(CAI).records, crew.phone(CAI).kept["versions"]) == (truth.records, truth.kept["versions"])


def test_a_copy_leaves_the_phone_when_access_is_gone_but_not_before_the_outbox_has_arrived(crew: History) -> None:
    edits = make(crew, CAI, NAME | {"now": "Offline"})
    crew.change_role(1, 3)
    assert not crew.pull(CAI)
    assert crew.phone(CAI).records
    crew.push(CAI)
    assert outcomes(crew, CAI, *edits) == ["held"]
    crew.pull(CAI)
    assert (crew.phone(CAI).records, crew.phone(CAI).kept["cursor"]) == ({}, None)


def test_a_late_edit_brings_no_removed_record_back(crew: History) -> None:
    edits = make(crew, CAI, TURN | {"kind": "set", "field": "position", "now": 2})
    make(crew, BEN, {"kind": "remove", **TURN})
    crew.push(BEN)
    crew.push(CAI)
    assert outcomes(crew, CAI, *edits) == ["removed"]
    assert "turns/p1.s1" not in fresh_copy(crew).records
    assert [item["edit"]["id"] for item in fresh_copy(crew).open_waiting("removed")] == edits


@pytest.mark.parametrize("anew", [False, True], ids=["same process", "new process"])
def test_an_edit_later_than_the_removal_mark_revives_nothing(crew: History, anew: bool) -> None:
    late = make(crew, CAI, TURN | {"kind": "set", "field": "position", "now": 2})
    make(crew, BEN, {"kind": "remove", **TURN})
    crew.push(BEN)
    crew.forget_what_was_removed(anew)
    again = make(crew, BEN, {"kind": "add", **TURN, "now": {"program": "p1", "station": "s1", "run_s": 60}})
    crew.push(CAI)
    crew.push(BEN)
    assert outcomes(crew, CAI, *late) == ["removed"]
    assert outcomes(crew, BEN, *again) in (["refused"], ["removed"])
    assert "turns/p1.s1" not in fresh_copy(crew).records


def test_a_removal_that_did_not_know_of_an_edit_becomes_a_dispute(crew: History) -> None:
    removal = make(crew, CAI, {"kind": "remove", **TURN})
    make(crew, BEN, TURN | {"kind": "set", "field": "position", "now": 2})
    crew.push(BEN)
    crew.push(CAI)
    assert outcomes(crew, CAI, *removal) == ["disputed"]
    assert fresh_copy(crew).records["turns/p1.s1"]["position"] == 2


def test_of_two_offline_edits_of_one_field_both_values_are_kept(crew: History) -> None:
    make(crew, BEN, NAME | {"now": "Ben's"})
    late = make(crew, CAI, NAME | {"now": "Cai's"})
    crew.push(BEN)
    crew.push(CAI)
    answer = crew.phone(CAI).kept["answers"][late[0]]
    assert (answer["outcome"], answer["theirs"], answer["by"]) == ("disputed", "Ben's", crew.phone(BEN).kept["person"])
    [found] = fresh_copy(crew).open_waiting("disputed")
    assert (found["edit"]["now"], found["answer"]["theirs"], name_of(crew)) == ("Cai's", "Ben's", "Ben's")
    crew.pull(BEN)
    crew.settle(BEN, 0, 1)
    crew.push(BEN)
    assert (name_of(crew), fresh_copy(crew).open_waiting("disputed")) == ("Cai's", [])


def test_the_same_value_twice_is_agreed_upon(crew: History) -> None:
    make(crew, BEN, NAME | {"now": "Same"})
    late = make(crew, CAI, NAME | {"now": "Same"})
    crew.push(BEN)
    crew.push(CAI)
    assert outcomes(crew, CAI, *late) == ["agreed"]


def test_an_edit_from_a_newer_app_is_parked_and_holds_nothing_up(crew: History) -> None:
    newer = make(crew, BEN, NAME | {"now": "Tomorrow's", "format": 2})
    plain = make(crew, BEN, NAME | {"record": "s2", "now": "Today's"})
    crew.push(BEN)
    assert outcomes(crew, BEN, *newer, *plain) == ["parked", "taken"]
    assert [item["edit"]["id"] for item in fresh_copy(crew).open_waiting("parked")] == newer
