"""A problem on the drawing board: supplies, cabinets, calendars and chains added one by one, frozen at the end."""

from __future__ import annotations

from dataclasses import dataclass, field

from pengan.engine.plan.problem import Cabinet, Chain, Problem, ProgramLimit, Span, SupplyNode

NIGHT_S = 86_400
DUSK_S = 8 * 3600
"""20:00 on a night that starts at noon."""


@dataclass
class Sketch:
    """What has been drawn so far. Every adder gives back the index of what it added. Times: seconds since noon."""

    length: int = NIGHT_S
    supplies: list[SupplyNode] = field(default_factory=list)
    controllers: list[Cabinet] = field(default_factory=list)
    programs: list[ProgramLimit] = field(default_factory=lambda: [ProgramLimit("p0")])
    stations: list[str] = field(default_factory=list)
    chains: list[Chain] = field(default_factory=list)
    calendars: list[tuple[Span, ...]] = field(default_factory=lambda: [((0, NIGHT_S),)])
    pairs: list[tuple[int, int]] = field(default_factory=list)

    def supply(self, limit: int | None, parent: int | None = None) -> int:
        self.supplies.append(SupplyNode(f"s{len(self.supplies):03d}", parent, limit))
        return len(self.supplies) - 1

    def controller(self, max_open: int | None, max_current: int | None, gap: int) -> int:
        self.controllers.append(Cabinet(f"k{len(self.controllers):03d}", max_open, max_current, gap))
        return len(self.controllers) - 1

    def program(self, limit: int | None = None, max_open: int | None = None, ordered: bool = False) -> int:
        self.programs.append(ProgramLimit(f"p{len(self.programs)}", limit, max_open, ordered))
        return len(self.programs) - 1

    def calendar(self, spans: tuple[Span, ...]) -> int:
        if spans not in self.calendars:
            self.calendars.append(spans)
        return self.calendars.index(spans)

    def chain(
        self,
        *,
        supply: int,
        flow: int,
        cycles: tuple[int, ...],
        soak: int,
        controller: int | None = None,
        program: int = 0,
        current: int = 0,
        rank: int = 5,
        release: int = DUSK_S,
        deadline: int | None = None,
        calendar: int = 0,
        fixed: int | None = None,
    ) -> int:
        """Add a station with one chain, and give back the index they share."""
        station = len(self.stations)
        self.stations.append(f"n{station:05d}")
        last = self.length if deadline is None else deadline
        key = f"t{len(self.chains):05d}"
        self.chains.append(
            Chain(
                key, station, supply, controller, program, flow, current, cycles, soak, rank, release, last, calendar,
                fixed=fixed,
            )
        )  # fmt: skip
        return station

    def freeze(self) -> Problem:
        apart: list[set[int]] = [set() for _ in self.stations]
        for one, other in self.pairs:
            apart[one].add(other)
            apart[other].add(one)
        return Problem(
            self.length,
            tuple(self.supplies),
            tuple(self.controllers),
            tuple(self.programs),
            tuple(self.stations),
            tuple(self.chains),
            tuple(self.calendars),
            tuple(frozenset(others) for others in apart),
        )


def open_spans(first: int, last: int, holes: tuple[Span, ...]) -> tuple[Span, ...]:
    """What is left of [first, last) when the holes are cut out of it."""
    spans: list[Span] = []
    at = first
    for start, end in sorted(holes):
        if start > at:
            spans.append((at, min(start, last)))
        at = max(at, end)
    if at < last:
        spans.append((at, last))
    return tuple(spans)
