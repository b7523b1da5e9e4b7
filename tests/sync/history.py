"""One history: a crew's phones, a real server between them, and whatever can go wrong on the way.

Every step takes whole numbers and does something with whatever is there: the n-th of what can be chosen, counted round.
So a history is a list of numbers, whatever the server's threads do meanwhile.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from itertools import count
from threading import Barrier, Thread
from typing import Any, TypeVar

from flask import Flask

from pengan.engine.document.read import faults_in
from pengan.web.sync.upkeep import forget_removed
from pengan.web.sync.working import kept
from sync.grounds import BAD, FIELDS, REMOVABLE, records_of
from sync.line import NO_REPLY, Delivery, Line, Reply, Request
from sync.phone import Phone
from sync.view import fields_of
from sync.world import Grounds, new_grounds, set_role, shared_of

Row = dict[str, Any]
T = TypeVar("T")
ROLES = ("manager", "lead", "crew", None)
EDITORS = ("manager", "lead")
MOST_PHONES = 7
PUSH, PULL = "/api/sync/push", "/api/sync/pull"
MOST_PAGES = 50
LONG_AFTER = 4_000_000_000


class History:
    """What happened, and the phones as they are now."""

    def __init__(self, app: Flask, clock_shift_s: int = 0) -> None:
        self.app = app
        self.line = Line(app)
        self.grounds: Grounds = new_grounds(app)
        self.roles: dict[str, str | None] = {"ana": "manager", "ben": "lead", "cai": "lead", "dora": "crew"}
        numbers = count(1)
        self.new_id = lambda: f"e{next(numbers)}"
        self.phones: list[tuple[str, Phone]] = []
        self.arrived: dict[str, bool] = {}
        self.made: dict[str, Row] = {}
        for short in ("ana", "ben", "cai", "ben", "dora"):
            phone = Phone(self.grounds.members[short].person, self.grounds.site, self.new_id)
            phone.clock_s += clock_shift_s
            self.phones.append((short, phone))
            assert self.pull(len(self.phones) - 1), f"{short} gets no copy"

    # Editing -----------------------------------------------------------------------------------------------------

    def edit(self, phone: int, field: int, record: int, value: int, newer: bool = False) -> None:
        """Somebody changes one field; `newer`: with an app of a later format than the server knows."""
        self.make(phone, [self._change(field, record, value) | ({"format": 2} if newer else {})])

    def edit_knowing_all(self, phone: int, field: int, record: int, value: int) -> None:
        """Somebody whose phone knows everything changes one field: whoever may edit is not refused or disputed."""
        short, one = self.phones[phone % len(self.phones)]
        while one.outbox:
            self.push(phone)
        if not self.pull(phone):
            return
        change = self._change(field, record, value)
        if f"{change['table']}/{change['record']}" not in one.records:
            return
        [edit] = self.make(phone, [change])
        expected = what_comes_of(change, one, self.roles[short])
        self.push(phone)
        outcome = one.kept["answers"][edit]["outcome"]
        assert outcome in expected, (change, one.kept["answers"][edit], expected)

    def edit_several(self, phone: int, *choices: tuple[int, int, int]) -> None:
        """Somebody changes several fields at once."""
        self.make(phone, [self._change(*choice) for choice in choices])

    def edit_badly(self, phone: int, bad: int, field: int, record: int, value: int) -> None:
        """Somebody's edit that no site may hold, and right behind it, a sound one in a set of its own."""
        table, record_id, name, now = BAD[bad % len(BAD)]
        wrong = {"kind": "set", "table": table, "record": record_id.format(site=self.grounds.site), "field": name}
        self.make(phone, [wrong | {"now": now}])
        self.make(phone, [self._change(field, record, value)])

    def _change(self, field: int, record: int, value: int) -> Row:
        table, name = place = nth(tuple(FIELDS), field)
        found = nth(records_of(place, self.grounds.site), record)
        return {"kind": "set", "table": table, "record": found, "field": name, "now": nth(FIELDS[place], value)}

    def remove(self, phone: int, which: int) -> None:
        """Somebody takes a record away."""
        table, record = nth(REMOVABLE, which)
        self.make(phone, [{"kind": "remove", "table": table, "record": record}])

    def remove_what_another_edits(self, one: int, other: int, which: int, value: int) -> None:
        """Somebody edits a turn while somebody else, who does not know, takes it away and is the quicker to send."""
        turn = {"table": "turns", "record": nth(records_of(("turns", "position"), self.grounds.site), which)}
        self.make(one, [{"kind": "set", **turn, "field": "position", "now": value % 3}])
        self.make(other, [{"kind": "remove", **turn}])
        self.push(other)
        self.push(one)

    def restore(self, phone: int, which: int) -> None:
        """Somebody brings back what their phone shows as gone."""
        removed = sorted(self.phone(phone).kept["removed"])
        if removed:
            table, record = nth(removed, which).split("/")
            self.make(phone, [{"kind": "restore", "table": table, "record": record}])

    def add(self, phone: int, run_s: int, and_edit: bool) -> None:
        """Somebody adds a closure, and may change it at once, before the server has heard of either."""
        record = f"k-{self.new_id()}"
        now = {"name": "Mown", "starts": "22:00", "ends": "23:00", "cause": "mowing"}
        self.make(phone, [{"kind": "add", "table": "closures", "record": record, "now": now}])
        if and_edit:
            change = {"kind": "set", "table": "closures", "record": record, "field": "cause"}
            self.make(phone, [change | {"now": nth(("event", "works"), run_s)}])

    def settle(self, phone: int, which: int, choice: int) -> None:
        """Somebody settles what waits, as their phone shows it: theirs, mine, or another value."""
        waiting = self.phone(phone).open_waiting("disputed")
        if not waiting:
            return
        found = nth(waiting, which)
        edit, answer = found["edit"], found["answer"]
        field = "removed" if edit["kind"] in ("remove", "restore") else edit["field"]
        now = nth((answer.get("theirs"), edit["now"]), choice) if field != "removed" else bool(choice % 2)
        place = {"table": edit["table"], "record": edit["record"], "field": field}
        self.make(phone, [{"kind": "settle", **place, "now": now, "settles": edit["id"]}])

    def discard(self, phone: int) -> None:
        """Somebody throws away what they have not sent."""
        self.phone(phone).discard_unsent()

    def make(self, phone: int, edits: Sequence[Row]) -> list[str]:
        """Somebody makes one set of edits; their ids."""
        made = self.phone(phone).make_set(*edits)
        self.made.update((edit["id"], dict(edit)) for edit in self.phone(phone).outbox if edit["id"] in made)
        return made

    # The line ----------------------------------------------------------------------------------------------------

    def push(self, phone: int, delivery: Delivery = Delivery.SOUND) -> Reply:
        """A phone sends its outbox."""
        request = self._push_request(phone)
        if request is None:
            return NO_REPLY
        if delivery not in (Delivery.LOST, Delivery.LATE, Delivery.LOGIN_PAGE):
            self._note_arrival(request)
        return self._take(phone, self.line.send(request, delivery))

    def push_at_once(self, one: int, other: int) -> None:
        """Two phones send in the same moment, each on a thread of its own."""
        pair = dict.fromkeys(number % len(self.phones) for number in (one, other))
        requests = {number: found for number in pair if (found := self._push_request(number)) is not None}
        for request in requests.values():
            self._note_arrival(request)
        replies: dict[int, Reply | BaseException] = {}
        barrier = Barrier(len(requests)) if requests else None

        def send(number: int, request: Request) -> None:
            assert barrier is not None
            barrier.wait(10)
            try:
                replies[number] = self.line.send(request)
            except BaseException as fault:  # noqa: BLE001  (raised below, on the test's own thread)
                replies[number] = fault

        threads = [Thread(target=send, args=item) for item in requests.items()]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join(60)
        for number in requests:
            reply = replies[number]
            if isinstance(reply, BaseException):
                raise reply
            self._take(number, reply)

    def let_through(self, which: int) -> None:
        """A request that was held up arrives after all; nobody waits for its reply any more."""
        if self.line.held_up:
            request = self.line.held_up.pop(which % len(self.line.held_up))
            self._note_arrival(request)
            self.line.deliver(request)

    def pull(self, phone: int, delivery: Delivery = Delivery.SOUND, limit: int | None = None) -> bool:
        """A phone asks for changes, page by page, and keeps them only once it has them all."""
        asking = self.phone(phone)
        pages: list[Row] = []
        for _ in range(MOST_PAGES):
            reply = self.line.send(
                self._request(phone, PULL, asking.next_pull(pages[-1] if pages else None, limit)), delivery
            )
            if not reply.is_an_answer():
                self._copy_may_go(asking, reply)
                return False
            pages.append(reply.body)
            if reply.body["next"] is None:
                asking.take_pull(pages)
                return True
        raise AssertionError("a pull does not come to an end")

    def _copy_may_go(self, phone: Phone, reply: Reply) -> None:
        """Access is gone: the copy leaves the phone, but not before the outbox has reached the server."""
        if reply.ours and reply.status in (403, 404) and not phone.outbox:
            phone.forget_the_site()

    def _push_request(self, phone: int) -> Request | None:
        push = self.phone(phone).next_push()
        return None if push is None else self._request(phone, PUSH, push)

    def _request(self, phone: int, path: str, body: Row) -> Request:
        short = self.phones[phone % len(self.phones)][0]
        return Request(path, json.dumps(body).encode(), self.grounds.members[short].token)

    def _note_arrival(self, request: Request) -> None:
        """Whether somebody might send a set is decided by their role when it first reaches the server."""
        short = next(name for name, member in self.grounds.members.items() if member.token == request.token)
        for edit_set in json.loads(request.body)["sets"]:
            allowed = may_send(self.roles[short], edit_set["edits"])
            for edit in edit_set["edits"]:
                self.arrived.setdefault(edit["id"], allowed)

    def _take(self, phone: int, reply: Reply) -> Reply:
        if reply.is_an_answer():
            self.phone(phone).take_answers(reply.body["answers"])
        return reply

    # People and phones -------------------------------------------------------------------------------------------

    def change_role(self, person: int, role: int) -> None:
        """A manager gives somebody another role, or none. Ana stays manager, so that somebody is."""
        self._give(nth(("ben", "cai", "dora"), person), nth(ROLES, role))

    def _give(self, short: str, role: str | None) -> None:
        set_role(self.app, self.grounds, short, role)
        self.roles[short] = role

    def become_manager_past_what_is_held(self, who: int, field: int, record: int, value: int) -> None:
        """What only managers see lies there already, and does not change, when somebody becomes one."""
        phone, dora = (1, 2)[who % 2], 4
        short, _ = self.phones[phone]
        self._give("dora", "crew")
        self._give(short, "lead")
        self.edit(dora, field, record, value)
        self.push(dora)
        self.pull(phone)
        self._give(short, "manager")
        self.pull(phone)

    def decide(self, which: int, accept: bool) -> None:
        """Ana accepts or declines an edit that is held, or discards one that waits for anything else."""
        waiting = self.phones[0][1].open_waiting("held", "removed", "refused", "disputed")
        if waiting:
            found = nth(waiting, which)
            decision = ("accept" if accept else "decline") if found["tray"] == "held" else "discard"
            path = f"/api/sync/sites/{self.grounds.site}/waiting/{found['edit']['id']}"
            self.line.deliver(self._request(0, path, {"decision": decision}))

    def forget_what_was_removed(self, and_start_anew: bool) -> None:
        """Removal marks are past their time; and perhaps the server is another process from now on."""
        with shared_of(self.app).database.session() as session:
            forget_removed(session, self.grounds.site, LONG_AFTER)
        if and_start_anew:
            kept._kept.clear()

    def clone(self, phone: int) -> None:
        """A phone's backup is restored on a second phone; both go on as the same device."""
        if len(self.phones) < MOST_PHONES:
            short, one = self.phones[phone % len(self.phones)]
            self.phones.append((short, one.clone(self.new_id)))

    def reload(self, phone: int) -> None:
        """An app is closed and opened: it shows what it showed."""
        one = self.phone(phone)
        before = one.view()
        one.reload()
        assert one.view() == before

    def shift_clock(self, phone: int, by_s: int) -> None:
        """A phone's clock is set."""
        self.phone(phone).clock_s += by_s

    def phone(self, number: int) -> Phone:
        """The n-th phone, counted round."""
        return self.phones[number % len(self.phones)][1]


def nth(choices: Sequence[T], number: int) -> T:
    """The n-th of the choices, counted round."""
    return choices[number % len(choices)]


def may_send(role: str | None, edits: Sequence[Row]) -> bool:
    """Managers and leads edit; crew may write notes."""
    notes = all(edit["kind"] == "set" and edit["field"] == "notes" for edit in edits)
    return role in EDITORS or (role == "crew" and notes)


def what_comes_of(change: Row, phone: Phone, role: str | None) -> tuple[str, ...]:
    """What an edit must be answered whose editor's phone knew everything: judged by the engine's own reader."""
    if not may_send(role, [change]):
        return ("held",)
    records = [change_in(record, change) for record in phone.records.values()]
    faults = faults_in({"format": 1, "records": records})
    return ("refused", "agreed") if faults else ("taken", "agreed")


def change_in(record: Row, change: Row) -> Row:
    """The record, with the change in it where it is about that record."""
    own = (record["table"], record["id"]) == (change["table"], change["record"])
    return record | fields_of(change["field"], change["now"]) if own else record
