"""All that surrounds the solver grows with the night, not with its square. Counted in calls, so no clock is needed."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from random import Random
from types import FrameType
from typing import Any

import pytest

from builders import a_controller, a_document, a_program, a_station, a_supply, a_turn, a_window
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.plan.build import Built, build
from pengan.engine.plan.draws import draws
from pengan.engine.plan.left_out import LeftOut
from pengan.engine.plan.loads import AllLoads
from pengan.engine.plan.placed import placed_runs
from pengan.engine.plan.problem import Plan
from pengan.engine.plan.solve import solve
from pengan.engine.plan.why import reasons


def a_site_of(stations: int, tightness: float) -> Document:
    """A site whose supply and controllers grow with its stations."""
    dice = Random(stations)
    controllers = [a_controller(f"c{n}", max_open=8, valve_gap_s=5) for n in range(stations // 50)]
    return a_document(
        supplies=[
            a_supply(limit_lpm=4 * stations * tightness),
            a_supply("north", fed_by="town", limit_lpm=3 * stations * tightness),
        ],
        controllers=controllers,
        stations=[
            a_station(
                f"s{n}",
                supply=dice.choice(["town", "north"]),
                flow_lpm=dice.randint(20, 120),
                controller=dice.choice(controllers)["id"],
            )
            for n in range(stations)
        ],
        programs=[a_program(f"p{n}", start="20:00", rank=1 + n % 9) for n in range(stations // 6)],
        turns=[
            a_turn(f"p{n % (stations // 6)}", f"s{n}", run_s=dice.randint(300, 2400), cycles=3, soak_s=600)
            for n in range(stations)
        ],
        windows=[a_window()],
    )


def events(act: Callable[[], object]) -> int:
    """Lines run and calls made: work that does not depend on the machine."""
    count = 0

    def trace(frame: FrameType, event: str, arg: Any) -> Any:
        nonlocal count
        count += 1
        return trace

    before = sys.gettrace()
    sys.settrace(trace)
    try:
        act()
    finally:
        sys.settrace(before)
    return count


def work(stations: int, tightness: float) -> tuple[int, int]:
    """The work of building a night of so many stations, and of laying its plan out with reasons."""
    document = a_site_of(stations, tightness)
    clock = clock_of(document.site)
    night = night_on(clock, date(2026, 7, 1))
    built = build(document, night, clock)
    plan = solve(built.problem, 1)
    return events(lambda: build(document, night, clock)), events(lambda: lay_out(built, plan))


def lay_out(built: Built, plan: Plan) -> None:
    """Everything of the sheet but the bound, which is the solver's."""
    runs = placed_runs(built.problem, plan)
    loads = AllLoads(built.problem, runs)
    reasons(built, runs, loads)
    draws(built, runs, loads)
    list(LeftOut(built, runs, loads).shortfalls(plan))


@pytest.mark.parametrize("tightness", [1.5, 0.3], ids=["all fits", "overfull"])
def test_four_times_the_stations_take_about_four_times_the_work(tightness: float) -> None:
    small, large = work(150, tightness), work(600, tightness)
    assert large[0] < 4.6 * small[0]
    assert large[1] < 6 * small[1]
