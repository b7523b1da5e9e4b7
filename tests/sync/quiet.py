"""The end of a history: everything on its way arrives, and then the twelve promises are held against what is there."""

from __future__ import annotations

from collections import Counter
from typing import Any

from pengan.engine.document.read import faults_in
from sync.history import History
from sync.ledger import Replay, edits_of, filled
from sync.phone import PLACES, Phone
from sync.world import shared_of

Row = dict[str, Any]
MOST_ROUNDS = 60
COLUMNS = {"kind": "kind", "table": "record_table", "record": "record", "field": "field", "now": "now", "seen": "seen"}
"""What of an edit must be in the history as it was made, and under which name."""


def come_to_rest(history: History) -> None:
    """Requests that were held up arrive, every outbox is sent, every phone pulls. Nothing is lost any more."""
    while history.line.held_up:
        history.let_through(0)
    for number in range(len(history.phones)):
        for _ in range(MOST_ROUNDS):
            if not history.phone(number).outbox:
                break
            history.push(number)
    for number in range(len(history.phones)):
        history.pull(number)


def check_places(history: History) -> None:
    """1: every edit is in exactly one place on each phone that has it, and on one phone at least."""
    for edit in history.made:
        places = [phone.places_of(edit) for _, phone in history.phones]
        assert any(places), f"{edit} is nowhere"
        for found in places:
            assert len(found) <= 1 and all(place in PLACES for place in found), f"{edit} is in {found}"


def check_document(history: History, copy: Phone) -> None:
    """8: the domain's rules hold."""
    faults = faults_in({"format": 1, "records": list(copy.records.values())})
    assert not faults, faults


def fresh_copy(history: History, short: str = "ana") -> Phone:
    """The site as a phone gets it that never had it."""
    number = next(place for place, (name, _) in enumerate(history.phones) if name == short)
    phone = Phone(history.grounds.members[short].person, history.grounds.site, history.new_id)
    history.phones.append((short, phone))
    try:
        assert history.pull(len(history.phones) - 1), f"{short} (phone {number}) gets no copy"
    finally:
        history.phones.pop()
    return phone


def check_at_rest(history: History) -> None:
    """Everything that must hold once nothing is on its way."""
    check_places(history)
    truth = fresh_copy(history)
    check_document(history, truth)
    edits = edits_of(shared_of(history.app).database.engine, history.grounds.site)
    check_history(history, truth, edits)
    check_once(history, edits)
    check_as_made(history, edits)
    check_roles(history, edits)
    check_receipts(history, edits)
    check_copies(history, truth)


def check_history(history: History, truth: Phone, edits: list[Row]) -> None:
    """2, 3, 4 and half of 7: the history, each edit once, replays to today's state without a gap in any version."""
    state = Replay(edits).records
    live = {key: record for key, record in state.items() if not record.removed}
    assert live.keys() == truth.records.keys()
    for key, record in live.items():
        table = key.split("/")[0]
        assert filled(table, record.fields) == filled(table, truth.records[key]), key
        assert _raised(record.versions) == _raised(truth.kept["versions"][key]), key
    for key, record in state.items():
        if record.removed and key in truth.kept["removed"]:
            assert truth.kept["removed"][key]["version"] == record.version("removed"), key


def _raised(versions: Row) -> Row:
    return {group: version for group, version in versions.items() if version > 1}


def check_once(history: History, edits: list[Row]) -> None:
    """2: however often a set arrived, the history has each of its edits once."""
    there = Counter(edit["edit_set"] for edit in edits if edit["person"] != "")
    made = Counter(edit["set"] for edit in history.made.values() if edit["id"] in history.arrived)
    assert there == made, f"there more often, or less, than made: {there - made} {made - there}"


def check_as_made(history: History, edits: list[Row]) -> None:
    """The history holds what people made on their phones, word for word."""
    for edit in edits:
        if edit["id"] in history.made:
            made = history.made[edit["id"]]
            for name, column in COLUMNS.items():
                assert made[name] == edit[column] or (name == "field" and made["field"] is None), (name, made, edit)


def check_roles(history: History, edits: list[Row]) -> None:
    """7: nothing is in force that came from somebody who might not send it when it arrived, unless a manager agreed."""
    for edit in edits:
        if edit["person"] == "":
            continue  # the document with which the site began
        assert edit["id"] in history.arrived, f"nobody sent {edit}"
        if not history.arrived[edit["id"]]:
            assert edit["outcome"] == "held" or edit["decided_by"] == history.grounds.members["ana"].person, edit


def check_receipts(history: History, edits: list[Row]) -> None:
    """1, 9 and 12: whatever reached the server has its receipt there, and phones were told what it says."""
    known = {edit["id"]: edit for edit in edits}
    assert history.arrived.keys() <= known.keys(), history.arrived.keys() - known.keys()
    for _, phone in history.phones:
        assert not phone.outbox, phone.outbox
        for edit_id, answer in phone.kept["answers"].items():
            edit = known[edit_id]
            if edit["decided_by"] is None and edit["outcome"] not in ("held", "parked"):
                assert answer["outcome"] in (edit["outcome"], "held", "parked"), (answer, edit)


def check_copies(history: History, truth: Phone) -> None:
    """5, 10: whoever may read has the same copy, by whatever chain of changes, and shows nothing else."""
    for short, phone in history.phones:
        if history.roles[short] is None:
            continue
        for name in ("records", "versions"):
            assert phone.kept[name] == truth.kept[name], (short, name)
        assert waits(phone) == waits(fresh_copy(history, short)), short
        assert phone.view() == truth.records, short


def waits(phone: Phone) -> Row:
    """What the phone shows as waiting for a decision, and in which tray."""
    return {edit: item["tray"] for edit, item in phone.kept["waiting"].items() if item["open"]}
