"""What a phone's clock says changes no value: the same history with clocks years apart ends in the same site."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

import pytest
from flask import Flask

from sync.history import History
from sync.line import Delivery
from sync.quiet import check_at_rest, come_to_rest, fresh_copy

STEPS = 60
YEARS_34_S = 34 * 365 * 86_400


def scripted(crew: History, random: Random, shifted: bool) -> None:
    """Steps one after the other, none at the same time, so that nothing but the clocks can make a difference."""
    steps: list[Callable[[], Any]] = [
        lambda: crew.edit(random.randrange(5), random.randrange(99), random.randrange(99), random.randrange(99)),
        lambda: crew.push(random.randrange(5), random.choice((Delivery.SOUND, Delivery.REPLY_LOST, Delivery.LATE))),
        lambda: crew.pull(random.randrange(5)),
        lambda: crew.remove(random.randrange(5), random.randrange(99)),
        lambda: crew.restore(random.randrange(5), random.randrange(99)),
        lambda: crew.settle(random.randrange(5), random.randrange(99), random.randrange(99)),
        lambda: crew.let_through(random.randrange(99)),
    ]
    for _ in range(STEPS):
        random.choice(steps)()
        phone, by_s = random.randrange(5), random.choice((-YEARS_34_S, -60, 60, YEARS_34_S))
        if shifted:
            crew.shift_clock(phone, by_s)


@pytest.mark.parametrize("seed", range(4))
def test_shifted_clocks_change_no_value(server: Flask, seed: int) -> None:
    ends = []
    for shifted in (False, True):
        crew = History(server)
        scripted(crew, Random(seed), shifted)
        come_to_rest(crew)
        check_at_rest(crew)
        copy = fresh_copy(crew)
        ends.append(
            [
                {key.replace(crew.grounds.site, "site"): rows for key, rows in found.items()}
                for found in ({key: without_id(record) for key, record in copy.records.items()}, copy.kept["versions"])
            ]
        )
    assert ends[0] == ends[1]


def without_id(record: dict[str, Any]) -> dict[str, Any]:
    """A record's values; the site itself has another id each time."""
    return {name: value for name, value in record.items() if name != "id"}
