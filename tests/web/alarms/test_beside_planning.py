"""Watching holds nobody up: whatever it has locked, nights are planned, edits taken and the journal told."""

from __future__ import annotations

import pytest

from pengan.engine.journal.entry import Entry, Kind
from pengan.web.ahead.operations import queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.alarms.queue import LEASE_S, claim_next, hold, take_up_new_sites
from pengan.web.journal.storing import store
from web.alarms.conftest import SHEET, Grounds
from web.journal.test_beside_planning import push, within_time
from web.people.crew import SITE

AT = SHEET.runs[0].start


@pytest.mark.parametrize("grounds", ["postgresql"], indirect=True)
def test_planning_edits_and_the_journal_go_on_while_a_look_is_being_written(grounds: Grounds) -> None:
    """SQLite has one writer, whatever it writes: there a look's transaction is short."""
    manager, database = grounds.server.person("manager"), grounds.server.shared.database
    grounds.now = AT
    grounds.tell([Entry("first-entry", AT - 60, Kind.FLOW, "reporter:field", supply="north", flow_lpm=1.0)])

    def plan() -> object:
        with database.session() as session:
            with session.begin():
                queue(session, SITE, 1)
            return work_once(session, "planner", AT, Orders(1))

    def tell() -> object:
        with database.session() as session, session.begin():
            entry = Entry("while-watching", AT - 30, Kind.FLOW, "reporter:field", supply="north", flow_lpm=2.0)
            return store(session, SITE, [entry], AT)

    with database.session() as watching:
        take_up_new_sites(watching)
        claim = claim_next(watching, "one", AT, LEASE_S)
        assert claim is not None
        with watching.begin():
            hold(watching, claim, LEASE_S)
            assert within_time(lambda: push(manager)) == "taken"
            assert within_time(plan) is not None
            assert within_time(tell) == ["taken"]
