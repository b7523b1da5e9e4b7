"""The histories that Hypothesis makes up: any step at any time, forty in a row, and what must hold in between."""

from __future__ import annotations

from collections.abc import Callable

import hypothesis
from flask import Flask
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from sync.history import History
from sync.line import Delivery
from sync.quiet import check_at_rest, check_places, come_to_rest

STEPS = 40
PHONE = st.integers(0, 6)
NUMBER = st.integers(0, 13)
WELL_OR_NOT = st.sampled_from([Delivery.SOUND, Delivery.SOUND, *Delivery])
THERE_OR_NOT = st.sampled_from(
    [Delivery.SOUND, Delivery.SOUND, Delivery.LOST, Delivery.REPLY_LOST, Delivery.LOGIN_PAGE]
)


class Crew(RuleBasedStateMachine):
    """A crew on one site. `made` says on which server; it is set before the machine runs."""

    made: Callable[[], Flask]

    def __init__(self) -> None:
        super().__init__()
        self.history = History(type(self).made())

    @rule(phone=PHONE, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit(self, phone: int, field: int, record: int, value: int) -> None:
        self.history.edit(phone, field, record, value)

    @rule(phone=PHONE, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit_and_send(self, phone: int, field: int, record: int, value: int) -> None:
        self.history.edit(phone, field, record, value)
        self.history.push(phone)

    @rule(one=PHONE, other=PHONE, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit_the_same_and_send_at_once(self, one: int, other: int, field: int, record: int, value: int) -> None:
        self.history.edit(one, field, record, value)
        self.history.edit(other, field, record, value + 1)
        self.history.push_at_once(one, other)

    @rule(phone=PHONE, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit_knowing_all(self, phone: int, field: int, record: int, value: int) -> None:
        self.history.edit_knowing_all(phone, field, record, value)

    @rule(phone=PHONE, one=st.tuples(NUMBER, NUMBER, NUMBER), other=st.tuples(NUMBER, NUMBER, NUMBER))
    def edit_several(self, phone: int, one: tuple[int, int, int], other: tuple[int, int, int]) -> None:
        self.history.edit_several(phone, one, other)

    @rule(phone=PHONE, bad=NUMBER, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit_badly(self, phone: int, bad: int, field: int, record: int, value: int) -> None:
        self.history.edit_badly(phone, bad, field, record, value)

    @rule(phone=PHONE, field=NUMBER, record=NUMBER, value=NUMBER)
    def edit_with_a_newer_app(self, phone: int, field: int, record: int, value: int) -> None:
        self.history.edit(phone, field, record, value, newer=True)

    @rule(phone=PHONE, which=NUMBER)
    def remove(self, phone: int, which: int) -> None:
        self.history.remove(phone, which)

    @rule(one=PHONE, other=PHONE, which=NUMBER, value=NUMBER)
    def remove_what_another_edits(self, one: int, other: int, which: int, value: int) -> None:
        self.history.remove_what_another_edits(one, other, which, value)

    @rule(phone=PHONE, which=NUMBER)
    def restore(self, phone: int, which: int) -> None:
        self.history.restore(phone, which)

    @rule(phone=PHONE, value=NUMBER, and_edit=st.booleans())
    def add(self, phone: int, value: int, and_edit: bool) -> None:
        self.history.add(phone, value, and_edit)

    @rule(phone=PHONE, which=NUMBER, choice=NUMBER)
    def settle(self, phone: int, which: int, choice: int) -> None:
        self.history.pull(phone)
        self.history.settle(phone, which, choice)

    @rule(phone=PHONE)
    def discard(self, phone: int) -> None:
        self.history.discard(phone)

    @rule(phone=PHONE, delivery=WELL_OR_NOT)
    def push(self, phone: int, delivery: Delivery) -> None:
        self.history.push(phone, delivery)

    @rule(one=PHONE, other=PHONE)
    def push_at_once(self, one: int, other: int) -> None:
        self.history.push_at_once(one, other)

    @rule(which=NUMBER)
    def let_through(self, which: int) -> None:
        self.history.let_through(which)

    @rule(phone=PHONE, delivery=THERE_OR_NOT, limit=st.sampled_from([None, None, 1, 3]))
    def pull(self, phone: int, delivery: Delivery, limit: int | None) -> None:
        self.history.pull(phone, delivery, limit)

    @rule(person=NUMBER, role=NUMBER)
    def change_role(self, person: int, role: int) -> None:
        self.history.change_role(person, role)

    @rule(who=NUMBER, field=NUMBER, record=NUMBER, value=NUMBER)
    def become_manager_past_what_is_held(self, who: int, field: int, record: int, value: int) -> None:
        self.history.become_manager_past_what_is_held(who, field, record, value)

    @rule(which=NUMBER, accept=st.booleans())
    def decide(self, which: int, accept: bool) -> None:
        self.history.pull(0)
        self.history.decide(which, accept)

    @rule(and_start_anew=st.booleans())
    def forget_what_was_removed(self, and_start_anew: bool) -> None:
        self.history.forget_what_was_removed(and_start_anew)

    @rule(phone=PHONE)
    def clone(self, phone: int) -> None:
        self.history.clone(phone)

    @rule(phone=PHONE, by_s=st.sampled_from([-(10**9), -3600, 3600, 10**9]))
    def shift_clock(self, phone: int, by_s: int) -> None:
        self.history.shift_clock(phone, by_s)

    @invariant()
    def holds(self) -> None:
        """Every edit is in one place, and a reload shows the same."""
        check_places(self.history)
        for number in range(len(self.history.phones)):
            self.history.reload(number)

    def teardown(self) -> None:
        come_to_rest(self.history)
        check_at_rest(self.history)


def run_histories(made: Callable[[], Flask], histories: int, *, shortest: bool = True, seed: int | None = None) -> None:
    """Make up that many histories against that server. Raises what Hypothesis found, in its shortest form if asked."""
    machine = type("CrewOnOneServer", (Crew,), {"made": staticmethod(made)})
    if seed is not None:
        machine = hypothesis.seed(seed)(machine)
    phases = [Phase.generate, Phase.shrink] if shortest else [Phase.generate]
    run_state_machine_as_test(
        machine,
        settings=settings(
            max_examples=histories,
            stateful_step_count=STEPS,
            deadline=None,
            derandomize=seed is None,
            database=None,
            phases=phases,
            report_multiple_bugs=False,
            suppress_health_check=list(HealthCheck),
        ),
    )
