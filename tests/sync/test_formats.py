"""An edit in an old format is brought up to today's or parked, never dropped, whichever side is the newer one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import Any
from unittest.mock import patch

import pytest

from pengan.engine.clock.instants import Instant
from pengan.web.sync import trays, upgrades
from pengan.web.sync.arriving import Arriving
from pengan.web.sync.taking import Sender
from pengan.web.sync.trays import retry_parked
from sync.history import History
from sync.line import Delivery
from sync.quiet import check_at_rest, come_to_rest, fresh_copy
from sync.world import shared_of

BEN, CAI = 1, 2
OLD = {"kind": "set", "table": "turns", "record": "p1.s1", "field": "minutes", "now": 25, "format": 0}
NEWER = {"kind": "set", "table": "stations", "record": "s1", "field": "label", "now": "Fern", "format": 2}


@contextmanager
def old_format() -> Iterator[None]:
    """A format before the first, in which a turn had whole minutes."""

    def to_first(edit: Arriving) -> Arriving:
        if (edit.table, edit.field) != ("turns", "minutes"):
            return edit
        return replace(edit, field="run", now={"run_s": int(str(edit.now)) * 60, "cycles": 1, "soak_s": 0})

    upgrades.upgrader(0)(to_first)
    try:
        yield
    finally:
        upgrades.forget_upgrader(0)


@contextmanager
def newer_server() -> Iterator[None]:
    """The server of one format later; there a station's name is called its label while it is under way."""

    def to_second(edit: Arriving) -> Arriving:
        return edit

    upgrades.upgrader(1)(to_second)
    try:
        with patch.object(upgrades, "FORMAT", 2), patch.object(trays, "FORMAT", 2):
            yield
    finally:
        upgrades.forget_upgrader(1)


def outcomes(crew: History, phone: int) -> list[str]:
    """What became of a phone's edits."""
    return [answer["outcome"] for answer in crew.phone(phone).kept["answers"].values()]


@pytest.mark.parametrize("delivery", [Delivery.SOUND, Delivery.DOUBLED, Delivery.REPLY_LOST])
def test_an_old_edit_is_upgraded_and_taken_once(crew: History, delivery: Delivery) -> None:
    with old_format():
        crew.make(BEN, [OLD])
        crew.push(BEN, delivery)
        crew.push(BEN)
    assert outcomes(crew, BEN) == ["taken"]
    copy = fresh_copy(crew)
    assert (copy.records["turns/p1.s1"]["run_s"], copy.kept["versions"]["turns/p1.s1"]) == (1500, {"run": 2})


def test_an_old_edit_of_a_removed_record_is_kept_for_its_person(crew: History) -> None:
    with old_format():
        [edit] = crew.make(CAI, [OLD])
        crew.make(BEN, [{"kind": "remove", "table": "turns", "record": "p1.s1"}])
        crew.push(BEN)
        crew.push(CAI)
    assert outcomes(crew, CAI) == ["removed"]
    assert [item["edit"]["id"] for item in fresh_copy(crew).open_waiting("removed")] == [edit]


def test_a_format_that_never_was_is_refused_and_kept(crew: History) -> None:
    [edit] = crew.make(BEN, [OLD])
    crew.push(BEN)
    assert outcomes(crew, BEN) == ["refused"]
    assert [item["edit"]["id"] for item in fresh_copy(crew).open_waiting("refused")] == [edit]


def test_what_was_parked_is_taken_once_the_server_knows_its_format(crew: History) -> None:
    known = {**NEWER, "field": "name"}
    crew.make(BEN, [known])
    crew.push(BEN)
    assert outcomes(crew, BEN) == ["parked"]
    assert retry(crew) == 0, "this server still does not know it"
    with newer_server():
        assert retry(crew) == 1
        assert retry(crew) == 0
    assert fresh_copy(crew).records["stations/s1"]["name"] == "Fern"
    assert not fresh_copy(crew).open_waiting("parked")
    come_to_rest(crew)
    check_at_rest(crew)


def test_what_was_parked_and_overtaken_becomes_a_dispute(crew: History) -> None:
    crew.make(BEN, [{**NEWER, "field": "name"}])
    crew.push(BEN)
    crew.make(CAI, [{"kind": "set", "table": "stations", "record": "s1", "field": "name", "now": "Palm"}])
    crew.push(CAI)
    with newer_server():
        retry(crew)
    copy = fresh_copy(crew)
    assert copy.records["stations/s1"]["name"] == "Palm"
    assert [item["edit"]["now"] for item in copy.open_waiting("disputed")] == ["Fern"]


def test_a_role_lost_while_an_edit_was_parked_counts(crew: History) -> None:
    crew.make(BEN, [{**NEWER, "field": "name"}])
    crew.push(BEN)
    crew.change_role(0, 2)  # Ben is crew now
    with newer_server():
        retry(crew)
    copy = fresh_copy(crew)
    assert copy.records["stations/s1"]["name"] == "S1"
    assert [item["edit"]["now"] for item in copy.open_waiting("held")] == ["Fern"]


def retry(crew: History) -> Any:
    """What a server does after an update: looks through what was parked."""
    with shared_of(crew.app).database.session() as session:
        return retry_parked(session, crew.grounds.site, Sender("", None, Instant(1_795_000_000)))
