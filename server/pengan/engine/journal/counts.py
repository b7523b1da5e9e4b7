"""What a meter's counter tells: how much went through between readings, over roll-overs and new meters.

A counter only rises, but for beginning again at nothing where its digits end, and for a new meter in its place. What
lies between two readings that do not fit together is said and left out, never made up. Volumes are whole millilitres,
instants whole seconds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from ..message import Message, Param, saying
from .entry import Entry, Kind
from .in_order import in_order

ROLLED_SHARE = 2
"""A counter that falls has rolled over if it rose by no more than one in so many of all it can show. Common practice,
no source: a rise of more than that within one step is rather a reading that went back."""

WENT_BACK = saying(
    "counts.went_back",
    "The meter of {supply} showed {before_l} at {before_at} and {after_l} at {after_at}. What went through between is "
    "not known. If its counter began again at 0, state where it does.",
)
NEW_METER = saying(
    "counts.new_meter",
    "{supply} got a new meter at {after_at}. What went through since the old one was read last, at {before_at}, is "
    "not known.",
)
ROLLED_OVER = saying(
    "counts.rolled_over", "The counter of {supply} began again at 0 between {before_at} and {after_at}."
)
BEYOND_ITS_END = saying(
    "counts.beyond_its_end",
    "The meter of {supply} showed {count_l} at {read_at}, more than where its counter is stated to begin again. That "
    "reading is left out.",
)


@dataclass(frozen=True, slots=True)
class Reading:
    """What a counter showed at an instant. `is_new`: the first of a new meter."""

    at: int
    count_ml: int
    is_new: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """From one reading to the next: what went through, or None where that is not known; `says` what is odd about it."""

    start: int
    end: int
    ml: int | None
    says: Message | None = None


@dataclass(frozen=True, slots=True)
class Counted:
    """All readings of a supply's meter within a span, and the steps between them. `odd` are readings left out."""

    readings: tuple[Reading, ...]
    steps: tuple[Step, ...]
    odd: tuple[Message, ...] = field(default=())

    @property
    def ml(self) -> int:
        """What the steps that are known add up to."""
        return sum(step.ml or 0 for step in self.steps)

    def says(self) -> Iterator[Message]:
        """Everything odd about it, for people to read."""
        yield from self.odd
        yield from (step.says for step in self.steps if step.says)


def readings_of(entries: Iterable[Entry], supply: str) -> list[Reading]:
    """The readings of one supply's counter, in order, each instant's and value's once."""
    found: list[Reading] = []
    for entry in in_order(entries):
        if entry.supply == supply and entry.kind in (Kind.COUNT, Kind.REPLACED) and entry.count_l is not None:
            one = Reading(entry.at, round(entry.count_l * 1000), entry.kind is Kind.REPLACED)
            if not found or found[-1] != one:
                found.append(one)
    return found


def counted(supply: str, readings: Sequence[Reading], ends_ml: int | None) -> Counted:
    """What went through a meter between its readings, given in order.

    `ends_ml` is where its counter begins again at nothing (a counter of six digits of cubic metres: a million of
    them), None where that is not known.
    """
    kept, odd = list[Reading](), list[Message]()
    for one in readings:
        if ends_ml is not None and one.count_ml >= ends_ml:
            odd.append(BEYOND_ITS_END(supply=supply, count_l=one.count_ml / 1000, read_at=one.at))
        else:
            kept.append(one)
    steps = tuple(step_between(supply, *pair, ends_ml) for pair in pairwise(kept))
    return Counted(tuple(kept), steps, tuple(odd))


def step_between(supply: str, before: Reading, after: Reading, ends_ml: int | None) -> Step:
    """What went through between two readings that follow each other."""
    between: dict[str, Param] = {"supply": supply, "before_at": before.at, "after_at": after.at}
    if after.is_new:
        says = None if before.at == after.at else NEW_METER(**between)
        return Step(before.at, after.at, 0 if says is None else None, says)
    rise = after.count_ml - before.count_ml
    if rise >= 0:
        return Step(before.at, after.at, rise)
    if ends_ml is not None and rise + ends_ml <= ends_ml // ROLLED_SHARE:
        return Step(before.at, after.at, rise + ends_ml, ROLLED_OVER(**between))
    amounts = {"before_l": before.count_ml / 1000, "after_l": after.count_ml / 1000}
    return Step(before.at, after.at, None, WENT_BACK(**between, **amounts))
