"""The phone that the server is tried with: it has to be right itself, or it proves nothing."""

from __future__ import annotations

from itertools import count
from typing import Any

import pytest

from sync.phone import Contradiction, Phone

Row = dict[str, Any]
PLACE = {"kind": "set", "table": "stations", "record": "s1", "field": "name"}


@pytest.fixture
def phone() -> Phone:
    """A phone with one station, at cursor 5."""
    numbers = count(1)
    made = Phone("ana", "site", lambda: f"e{next(numbers)}")
    made.take_pull([page(5, fresh=True, records=[station("Old")])])
    return made


def station(called: str, **versions: int) -> Row:
    return {"record": {"table": "stations", "id": "s1", "name": called}, "versions": versions}


def page(cursor: int, fresh: bool = False, records: list[Row] | None = None, removals: list[Row] | None = None) -> Row:
    body = {"fresh": fresh, "cursor": cursor, "scope": "1", "next": None, "waiting": []}
    return body | {"records": records or [], "removals": removals or []}


def answered(edit: str, outcome: str, revision: int = 6) -> Row:
    return {"id": edit, "outcome": outcome, "revision": revision, "version": 2}


def test_an_unsent_edit_folds_into_the_next_of_its_field_and_keeps_what_it_saw(phone: Phone) -> None:
    [first] = phone.make_set(PLACE | {"now": "A", "was": "Old"})
    [second] = phone.make_set(PLACE | {"now": "B", "was": "A"})
    assert [(edit["id"], edit["seen"], edit["was"], edit["now"]) for edit in phone.outbox] == [(second, 1, "Old", "B")]
    assert phone.places_of(first) == ["folded"]


def test_what_was_sent_does_not_fold_but_is_what_the_next_one_saw(phone: Phone) -> None:
    [first] = phone.make_set(PLACE | {"now": "A"})
    phone.next_push()
    phone.make_set(PLACE | {"now": "B"})
    assert [edit["seen"] for edit in phone.outbox] == [1, first]


def test_an_answered_edit_stays_laid_over_until_the_cursor_has_passed_it(phone: Phone) -> None:
    [edit] = phone.make_set(PLACE | {"now": "New"})
    phone.next_push()
    phone.take_answers([answered(edit, "taken", revision=7)])
    assert (phone.outbox, phone.places_of(edit), phone.view()["stations/s1"]["name"]) == ([], ["taken"], "New")
    phone.take_pull([page(6)])
    assert phone.view()["stations/s1"]["name"] == "New"
    phone.take_pull([page(7, records=[station("New", name=2)])])
    assert phone.kept["overlaid"] == []
    assert phone.view()["stations/s1"]["name"] == "New"


def test_an_answer_that_was_given_already_changes_nothing(phone: Phone) -> None:
    [edit] = phone.make_set(PLACE | {"now": "New"})
    phone.next_push()
    phone.take_answers([answered(edit, "disputed")])
    before = phone.clone(phone.new_id).kept
    phone.take_answers([answered(edit, "disputed")])
    assert phone.kept == before


def test_a_contradiction_is_noticed(phone: Phone) -> None:
    [edit] = phone.make_set(PLACE | {"now": "New"})
    phone.next_push()
    phone.take_answers([answered(edit, "refused")])
    with pytest.raises(Contradiction):
        phone.take_answers([answered(edit, "taken")])


def test_a_cursor_that_falls_without_a_fresh_copy_is_noticed_and_nothing_is_stored(phone: Phone) -> None:
    with pytest.raises(Contradiction):
        phone.take_pull([page(4, records=[station("Older")])])
    assert (phone.kept["cursor"], phone.view()["stations/s1"]["name"]) == (5, "Old")


def test_a_fresh_copy_takes_away_what_is_not_in_it(phone: Phone) -> None:
    phone.take_pull([page(3, fresh=True)])
    assert (phone.records, phone.kept["cursor"]) == ({}, 3)


def test_a_push_carries_whole_sets_and_at_most_a_hundred_edits(phone: Phone) -> None:
    sets = [phone.make_set(*(PLACE | {"record": f"s{n}", "now": "A"} for n in range(60))) for _ in range(2)]
    push = phone.next_push()
    assert push is not None
    assert [[edit["id"] for edit in found["edits"]] for found in push["sets"]] == sets[:1]


def test_a_removal_that_is_taken_back_and_made_again_has_seen_what_its_person_wrote_before(phone: Phone) -> None:
    """The edit of the name was answered but never pulled: the page that came next had the removal alone."""
    [edit] = phone.make_set(PLACE | {"now": "New"})
    [gone] = phone.make_set({"kind": "remove", "table": "stations", "record": "s1"})
    phone.next_push()
    phone.take_answers([answered(edit, "taken"), answered(gone, "taken", revision=7)])
    phone.take_pull([page(7, removals=[{"table": "stations", "id": "s1", "version": 2}])])
    [back] = phone.make_set({"kind": "restore", "table": "stations", "record": "s1"})
    phone.make_set({"kind": "remove", "table": "stations", "record": "s1"})
    assert [one["seen"] for one in phone.outbox] == [2, {"name": 2, "removed": back}]
