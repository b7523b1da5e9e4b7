"""A fault while the watch follows it: what it was taken for, where it shows, and in which spells."""

from __future__ import annotations

from dataclasses import dataclass, field
from statistics import median

from ..plan.water import litres
from .finding import EXCESS, Finding, Noticed, Spell

SIZES = 9
"""So many of the latest readings tell a size."""


@dataclass(slots=True)
class Case:
    """`spells` are `[start, noticed, end]`, the end None while it lasts; `sizes` the latest differences in mL/min."""

    id: str
    kind: Noticed
    supply: str | None = None
    controller: str | None = None
    members: list[str] = field(default_factory=list)
    voices: list[str] = field(default_factory=list)
    quiet: list[str] = field(default_factory=list)
    spells: list[list[int | None]] = field(default_factory=list)
    sizes: list[int] = field(default_factory=list)
    readings: int = 0

    @property
    def is_open(self) -> bool:
        return self.spells[-1][2] is None

    @property
    def since(self) -> int:
        return self.spells[0][0] or 0

    @property
    def began(self) -> int:
        """The start of its latest spell."""
        return self.spells[-1][0] or 0

    @property
    def noticed(self) -> int:
        return self.spells[-1][1] or 0

    @property
    def size(self) -> int:
        return round(median(self.sizes)) if self.sizes else 0

    @property
    def is_excess(self) -> bool:
        return self.kind in EXCESS

    @property
    def is_lack(self) -> bool:
        return self.kind is Noticed.TOO_LITTLE or (self.kind is Noticed.POWER and bool(self.members))

    def measured(self, size: int) -> None:
        self.sizes = [*self.sizes[1 - SIZES :], size]
        self.readings += 1

    def again(self, since: int, now: int) -> None:
        self.spells.append([max(since, self.spells[-1][2] or 0), now, None])

    def end(self, at: int) -> None:
        self.spells[-1][2] = max(at, self.began)

    def finding(self) -> Finding:
        spells = tuple(Spell(start or 0, noticed or 0, end) for start, noticed, end in self.spells)
        return Finding(
            self.id, self.kind, self.supply, self.controller, litres(self.size), spells, tuple(self.members),
            tuple(self.voices), self.readings,
        )  # fmt: skip


class Cases:
    """All cases of a night, in the order in which they were noticed."""

    def __init__(self) -> None:
        self.all: list[Case] = []

    def open(self) -> list[Case]:
        return [case for case in self.all if case.is_open]

    def begin(self, kind: Noticed, where: str, since: int, now: int) -> Case:
        """A new case, with the same id whenever the night is watched anew: the first, second, … of its kind there."""
        stem = f"{'excess' if kind in EXCESS else kind}:{where}"
        number = 1 + sum(case.id.rpartition(":")[0] == stem for case in self.all)
        case = Case(f"{stem}:{number}", kind, spells=[[since, now, None]])
        self.all.append(case)
        return case
