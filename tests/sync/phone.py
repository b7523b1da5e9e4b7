"""A phone in memory: what it stores, what it shows, and what it does with the server's answers.

Everything it keeps is one JSON object, as a phone keeps it in its database: a reload is that object read anew,
a clone is a copy of it on another phone. It follows the protocol and nothing else; it knows no line of the server.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from sync.view import key_of, laid_over

Row = dict[str, Any]
FINAL = ("taken", "agreed", "disputed", "removed", "refused")
"""Answers that never change once they are given. What is held or parked may still be taken."""
PLACES = ("outbox", *FINAL, "held", "parked", "folded", "discarded")
MOST_EDITS = 100
WIRE = ("id", "kind", "table", "record", "field", "seen", "was", "now", "format", "phone_time", "settles")


class Contradiction(AssertionError):
    """The server said something else than it had said before, or something no phone can follow."""


class Phone:
    """One device of one person with a copy of one site."""

    def __init__(self, person: str, site: str, new_id: Callable[[], str]) -> None:
        self.new_id = new_id
        self.clock_s = 1_790_000_000
        self.kept: Row = {
            "person": person,
            "site": site,
            "cursor": None,
            "scope": None,
            "records": {},
            "versions": {},
            "removed": {},
            "waiting": {},
            "outbox": [],
            "overlaid": [],
            "answers": {},
            "elsewhere": {},
        }

    # What is shown -----------------------------------------------------------------------------------------------

    @property
    def outbox(self) -> list[Row]:
        """Edits not answered yet, in the order they were made."""
        found: list[Row] = self.kept["outbox"]
        return found

    @property
    def records(self) -> dict[str, Row]:
        """The server's records as this phone has them, by `table/id`."""
        found: dict[str, Row] = self.kept["records"]
        return found

    def view(self) -> dict[str, Row]:
        """What the screen shows: the copy, and over it the answered edits that it lacks, and the outbox."""
        return laid_over(self.records, [*self.kept["overlaid"], *self.outbox])

    def open_waiting(self, *trays: str) -> list[Row]:
        """What waits for a decision in these trays, in the order of the edits' ids."""
        found = [item for item in self.kept["waiting"].values() if item["open"] and item["tray"] in trays]
        return sorted(found, key=lambda item: str(item["edit"]["id"]))

    # Editing -----------------------------------------------------------------------------------------------------

    def make_set(self, *edits: Mapping[str, Any]) -> list[str]:
        """Write edits into the outbox as one set; unsent edits of the same field fold into one. Gives their ids."""
        set_id = self.new_id()
        made: list[Row] = []
        for edit in edits:
            made.append(self._complete(edit, set_id, made))
        if len(made) == 1:
            self._fold(made[0])
        self.outbox.extend(made)
        return [edit["id"] for edit in made]

    def _complete(self, edit: Mapping[str, Any], set_id: str, before: list[Row]) -> Row:
        """An edit as the outbox keeps it: with what its person had seen, and when that was by the phone's clock."""
        given = {"field": None, "was": None, "now": None, "format": 1, "settles": None, **edit}
        if "seen" not in given:
            given["seen"] = self._seen(given, before)
        return given | {"id": self.new_id(), "set": set_id, "phone_time": str(self.clock_s), "sent": False}

    def _seen(self, edit: Row, before: list[Row]) -> object:
        """One's own earlier edit of the field where the copy has not got it yet, else the copy's version of it."""
        if edit["kind"] == "add":
            return None
        if edit["kind"] == "remove":
            return self._seen_by_field(edit, before)
        field = "removed" if edit["kind"] == "restore" else edit["field"]
        return self._own_earlier(edit, field, before) or self._version(key_of(edit), field)

    def _seen_by_field(self, edit: Row, before: list[Row]) -> Row:
        """What a removal saw: every field that is not at version 1, or has an edit of one's own on its way."""
        seen: Row = dict(self._versions(key_of(edit)))
        own = [*self.kept["overlaid"], *self.outbox, *before]
        for earlier in own:
            if key_of(earlier) == key_of(edit) and field_of(earlier) is not None:
                seen[str(field_of(earlier))] = earlier["id"]
        return seen

    def _own_earlier(self, edit: Row, field: str | None, before: list[Row]) -> str | None:
        for earlier in reversed([*self.kept["overlaid"], *self.outbox, *before]):
            if key_of(earlier) == key_of(edit) and field_of(earlier) == field:
                return str(earlier["id"])
        return None

    def _version(self, key: str, field: str | None) -> int:
        if field == "removed" and key in self.kept["removed"]:
            return int(self.kept["removed"][key]["version"])
        return int(self._versions(key).get(field, 1))

    def _versions(self, key: str) -> Row:
        """The versions the copy knows of a record, be it there or removed."""
        found: Row = _known(self.kept, key)
        return found

    def _fold(self, edit: Row) -> None:
        """An unsent edit of the same field gives way to the new one, which takes over what it had seen.

        Whatever was sent stays: its answer may be on its way. So does an edit that stands or falls with others.
        """
        earlier = next((item for item in self.outbox if item["id"] == edit["seen"]), None)
        if earlier is None or earlier["sent"] or (earlier["kind"], edit["kind"]) != ("set", "set"):
            return
        if sum(item["set"] == earlier["set"] for item in self.outbox) == 1:
            self.outbox.remove(earlier)
            self.kept["elsewhere"][earlier["id"]] = "folded"
            edit |= {"was": earlier["was"], "seen": earlier["seen"]}

    def discard_unsent(self) -> list[str]:
        """Its person throws away the last set that was never sent."""
        if not self.outbox or self.outbox[-1]["sent"]:
            return []
        gone = [edit for edit in self.outbox if edit["set"] == self.outbox[-1]["set"]]
        for edit in gone:
            self.outbox.remove(edit)
            self.kept["elsewhere"][edit["id"]] = "discarded"
        return [edit["id"] for edit in gone]

    # The line ----------------------------------------------------------------------------------------------------

    def next_push(self) -> Row | None:
        """The first sets of the outbox, whole sets only, at most 100 edits; from now on they count as sent."""
        sets: dict[str, list[Row]] = {}
        for edit in self.outbox:
            if edit["set"] not in sets and sum(map(len, sets.values())) + self._size(edit["set"]) > MOST_EDITS:
                break
            edit["sent"] = True
            sets.setdefault(edit["set"], []).append({name: edit[name] for name in WIRE})
        written = [{"id": name, "site": self.kept["site"], "edits": edits} for name, edits in sets.items()]
        return {"person": self.kept["person"], "sets": written} if written else None

    def _size(self, set_id: str) -> int:
        return sum(edit["set"] == set_id for edit in self.outbox)

    def take_answers(self, answers: list[Row]) -> None:
        """Each answered edit leaves the outbox for the one place its answer names."""
        waiting = {edit["id"]: edit for edit in self.outbox}
        for answer in answers:
            self._as_before(answer)
            edit = waiting.get(answer["id"])
            if edit is None:
                continue
            self.outbox.remove(edit)
            self.kept["answers"][edit["id"]] = answer
            if answer["outcome"] in ("taken", "agreed") and not self._is_passed(answer["revision"]):
                at = {"revision": answer["revision"], "version": answer.get("version")}
                self.kept["overlaid"].append(edit | at)

    def _is_passed(self, revision: int) -> bool:
        return self.kept["cursor"] is not None and revision <= self.kept["cursor"]

    def _as_before(self, answer: Row) -> None:
        before = self.kept["answers"].get(answer["id"])
        if before is not None and before["outcome"] in FINAL and before["outcome"] != answer["outcome"]:
            raise Contradiction(f"{before}, and later {answer}")

    def next_pull(self, before: Row | None = None, limit: int | None = None) -> Row:
        """Asks for what has changed, or for the page that follows the one before, under that one's scope."""
        asked = {"site": self.kept["site"], "cursor": self.kept["cursor"], "scope": self.kept["scope"], "limit": limit}
        return asked if before is None else asked | {"after": before["next"], "scope": before["scope"]}

    def take_pull(self, pages: list[Row]) -> None:
        """Store all pages and the cursor as one: a copy that has caught up with an answered edit needs it no longer."""
        last = pages[-1]
        kept: Row = json.loads(json.dumps(self.kept))
        if pages[0]["fresh"]:
            kept |= {"records": {}, "versions": {}, "removed": {}, "waiting": {}}
        elif last["cursor"] < kept["cursor"]:
            raise Contradiction(f"the cursor fell from {kept['cursor']} to {last['cursor']} without a fresh copy")
        for page in pages:
            _store(kept, page)
        kept |= {"cursor": last["cursor"], "scope": last["scope"]}
        kept["overlaid"] = [edit for edit in kept["overlaid"] if edit["revision"] > last["cursor"]]
        self.kept = kept

    def forget_the_site(self) -> None:
        """Access is gone and everything in the outbox has reached the server: the copy leaves the phone."""
        self.kept |= {"cursor": None, "scope": None, "records": {}, "versions": {}, "removed": {}, "waiting": {}}
        self.kept["overlaid"] = []

    # What can happen to a phone ------------------------------------------------------------------------------------

    def reload(self) -> None:
        """The app is closed and opened: only what was written down is left."""
        self.kept = json.loads(json.dumps(self.kept))

    def clone(self, new_id: Callable[[], str]) -> Phone:
        """A second phone onto which this one's backup was restored."""
        twin = Phone(self.kept["person"], self.kept["site"], new_id)
        twin.kept, twin.clock_s = json.loads(json.dumps(self.kept)), self.clock_s
        return twin

    def places_of(self, edit_id: str) -> list[str]:
        """Every place this phone has the edit in: one, or it was lost or doubled; none on a phone that never had it."""
        places = ["outbox" for edit in self.outbox if edit["id"] == edit_id]
        if edit_id in self.kept["elsewhere"]:
            places.append(self.kept["elsewhere"][edit_id])
        if edit_id in self.kept["answers"]:
            places.append(self.kept["answers"][edit_id]["outcome"])
        return places


def field_of(edit: Mapping[str, Any]) -> str | None:
    """The versioned field that an edit writes. Removing and bringing back write the field `removed`."""
    if edit["kind"] in ("remove", "restore"):
        return "removed"
    field: str | None = edit["field"]
    return field


def _store(kept: Row, page: Row) -> None:
    for pulled in page["records"]:
        key = key_of(pulled["record"])
        kept["records"][key], kept["versions"][key] = pulled["record"], pulled["versions"]
        kept["removed"].pop(key, None)
    for removal in page["removals"]:
        key = key_of(removal)
        last = kept["records"].pop(key, None) or kept["removed"].get(key, {}).get("last")
        versions = _known(kept, key) | _own_versions(kept["overlaid"], key)
        kept["removed"][key] = removal | {"last": last, "versions": versions}
        kept["versions"].pop(key, None)
    for waiting in page["waiting"]:
        kept["waiting"][waiting["edit"]["id"]] = waiting


def _known(kept: Row, key: str) -> Row:
    found: Row = kept["versions"].get(key) or kept["removed"].get(key, {}).get("versions", {})
    return found


def _own_versions(own: list[Row], key: str) -> Row:
    """What one's own edits, answered but never pulled, have made of a record's fields."""
    theirs = (edit for edit in own if key_of(edit) == key and edit["field"] is not None)
    return {edit["field"]: edit["version"] for edit in theirs if edit["version"]}
