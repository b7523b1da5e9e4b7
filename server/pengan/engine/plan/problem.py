"""A night as the solver sees it: whole numbers only, already validated.

Time basis: seconds since the night's start (local noon), so no clock is needed here. Flows are
millilitres per minute, currents milliamperes. Everything refers to everything else by index.
"""

from __future__ import annotations

from dataclasses import dataclass

Span = tuple[int, int]
"""Half-open: from the first second, up to and without the last."""


@dataclass(frozen=True, slots=True)
class SupplyNode:
    """A source (`parent` is None) or a main. `limit` None: no limit of its own."""

    key: str
    parent: int | None
    limit: int | None
    steady: int | None = None
    least: int | None = None


@dataclass(frozen=True, slots=True)
class Cabinet:
    """A controller's limits. A valve's place stays taken for `gap` seconds after it closes."""

    key: str
    max_open: int | None = None
    max_current: int | None = None
    gap: int = 0


@dataclass(frozen=True, slots=True)
class ProgramLimit:
    """A program's own limits. `ordered`: a turn's first cycle never starts before that of the turn listed above it
    (fixed and begun chains apart)."""

    key: str
    limit: int | None = None
    max_open: int | None = None
    ordered: bool = False


@dataclass(frozen=True, slots=True)
class Chain:
    """One due turn: its cycles in seconds, each at least `soak` seconds after the end of the one before.

    `calendar` lists the spans in which a cycle may lie, whole. Every cycle lies in [`release`, `deadline`).
    `late`: place it as late as it can be; `fixed`: the first cycle starts exactly then or the chain is left out.
    `begun`: these are the cycles left of a turn whose first has run already, so that a listed order binds it no more.
    """

    key: str
    station: int
    supply: int
    controller: int | None
    program: int
    flow: int
    current: int
    cycles: tuple[int, ...]
    soak: int
    rank: int
    release: int
    deadline: int
    calendar: int
    late: bool = False
    fixed: int | None = None
    begun: bool = False

    @property
    def in_order(self) -> bool:
        """Whether a program's listed order binds its first cycle."""
        return self.fixed is None and not self.begun


@dataclass(frozen=True, slots=True)
class Problem:
    """Everything that decides a night. `chains` of an ordered program stand in their listed order.

    `apart[s]` holds the stations that may not be open while station `s` is. A station is never open twice at once.
    """

    length: int
    supplies: tuple[SupplyNode, ...]
    controllers: tuple[Cabinet, ...]
    programs: tuple[ProgramLimit, ...]
    stations: tuple[str, ...]
    chains: tuple[Chain, ...]
    calendars: tuple[tuple[Span, ...], ...]
    apart: tuple[frozenset[int], ...]

    def path(self, supply: int) -> tuple[int, ...]:
        """The supply and everything that feeds it, the source last."""
        nodes = [supply]
        while (parent := self.supplies[nodes[-1]].parent) is not None:
            nodes.append(parent)
        return tuple(nodes)


@dataclass(frozen=True, slots=True)
class Plan:
    """What the solver found. `starts[c][k]` is when cycle `k` of chain `c` starts, None where it did not fit.

    `order` is how it was made (see `solve.kept_order`): given back as a start, a small edit moves little.
    `constructions` is the effort really spent.
    """

    starts: tuple[tuple[int | None, ...], ...]
    order: tuple[str, ...]
    constructions: int
