"""Water that went through a meter and to no station that anybody knows of, over as many nights as are asked for.

It is told from the first reading to the last. Where two readings do not fit together, or a night between them was never
reckoned up, neither side counts. Volumes are whole millilitres.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from ..document.document import Document
from ..message import Message, saying
from .counts import step_between
from .tree import Tree
from .used import MeterNight

NIGHTS_UNKNOWN = saying(
    "unaccounted.nights_unknown",
    "What {supply} gave between {before_at} and {after_at} is left out: not every night between is known.",
)
Nights = Sequence[tuple[date, MeterNight]]


@dataclass(frozen=True, slots=True)
class MeterSum:
    """What a meter counted from `start` to `end` (instants), and what came to the stations below it meanwhile."""

    supply: str
    start: int
    end: int
    counted_ml: int
    came_ml: int
    says: tuple[Message, ...] = ()

    @property
    def unaccounted_ml(self) -> int:
        """Below nothing where the stations are taken to have got more than went through."""
        return self.counted_ml - self.came_ml


def meter_sum(supply: str, nights: Nights, through: Mapping[date, int], ends_ml: int | None) -> MeterSum | None:
    """The nights of one meter, in order, put together; None where only one reading is known.

    `through` is what came through the supply in each night that was reckoned up.
    """
    if not nights:
        return None
    first, last = nights[0][1].first, nights[-1][1].last
    if first.at == last.at:
        return None
    counted, came = sum(one.counted_ml for _, one in nights), sum(one.came_ml for _, one in nights)
    says = [message for _, one in nights for message in one.says]
    for (day, one), (next_day, other) in pairwise(nights):
        step = step_between(supply, one.last, other.first, ends_ml)
        says += [step.says] if step.says else []
        between = [day + timedelta(days=number) for number in range(1, (next_day - day).days)]
        if step.ml is None:
            continue
        if not all(night in through for night in between):
            says.append(NIGHTS_UNKNOWN(supply=supply, before_at=step.start, after_at=step.end))
            continue
        counted += step.ml
        came += one.after_ml + sum(through[night] for night in between) + other.before_ml
    return MeterSum(supply, first.at, last.at, counted, came, tuple(says))


def topmost(document: Document, supplies: Iterable[str]) -> list[str]:
    """Those of the supplies above which none of the others stands: water is not counted twice on its way down."""
    tree, known = Tree(document), [one for one in supplies if one in document.supplies]
    return sorted(one for one in known if not any(tree.is_below(one, other) for other in known))
