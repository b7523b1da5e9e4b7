"""The night's pace, on a clock that only sleeping moves."""

from __future__ import annotations

from pengan.engine.journal.entry import Entry, Kind
from pengan.field.line.batches import batches
from pengan.field.line.pace import GATHER_S, AtOnce, Timed
from pengan.field.told import Told


class Clock:
    """Seconds that pass while somebody sleeps."""

    def __init__(self) -> None:
        self.now, self.slept = 100.0, list[float]()

    def __call__(self) -> float:
        return self.now

    def sleep(self, seconds: float) -> None:
        self.slept.append(seconds)
        self.now += seconds


def told(*instants: int) -> list[Told]:
    return [Told(at, Entry(f"entry-{n:04}", at, Kind.LIFTED, "reporter:x")) for n, at in enumerate(instants)]


def sizes(tellings: list[Told], pace: Timed | AtOnce, most: int = 100) -> list[int]:
    return [len(bundle) for bundle in batches(tellings, pace, most)]


def test_at_once_is_bundled_by_size_alone() -> None:
    assert sizes(told(*range(25)), AtOnce(), most=10) == [10, 10, 5]


def test_what_lies_in_the_past_goes_out_without_waiting() -> None:
    clock = Clock()
    assert sizes(told(10, 20, 30), Timed(1000, 1, clock, clock.sleep)) == [3]
    assert clock.slept == []


def test_what_is_to_come_is_waited_for() -> None:
    clock = Clock()
    assert sizes(told(1060, 1120), Timed(1000, 1, clock, clock.sleep)) == [1, 1]
    assert clock.slept == [60, 60]


def test_a_fast_night_takes_less_of_ours() -> None:
    clock = Clock()
    sizes(told(0, 3600, 7200), Timed(0, 60, clock, clock.sleep))
    assert sum(clock.slept) == 120


def test_what_is_told_close_together_goes_out_together() -> None:
    """A minute of field time at sixty times the speed: all of it in one bundle, a second later."""
    clock = Clock()
    assert sizes(told(*range(10, 60, 10)), Timed(0, 60, clock, clock.sleep)) == [5]
    assert clock.slept == [GATHER_S]


def test_everything_is_told_once_and_in_order() -> None:
    clock = Clock()
    tellings = told(5, 5, 5, 70, 71, 3000)
    sent = [entry.id for bundle in batches(tellings, Timed(0, 10, clock, clock.sleep), 2) for entry in bundle]
    assert sent == [one.entry.id for one in tellings]
