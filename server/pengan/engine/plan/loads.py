"""What the runs of a plan ask of every limit: one list of loads a limit, in order of their starts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from .levels import Load, levels
from .placed import Placed
from .problem import Problem


@dataclass(slots=True)
class LimitLoads:
    """One limit, and the loads of the runs that it concerns. `runs` gives each load's place among all runs.

    `what` is one of `flow` (a supply), `open`, `current` (a controller), `program_flow`, `program_open` (a program);
    `limit` None: nothing limits it, the loads are wanted for the draw alone. The loads of `open` last for the gap too.
    """

    what: str
    index: int
    limit: int | None
    gap: int = 0
    loads: list[Load] = field(default_factory=list)
    runs: list[int] = field(default_factory=list)
    _steps: list[tuple[int, int]] | None = None

    def add(self, run: int, placed: Placed, amount: int) -> None:
        """One run's load."""
        self.runs.append(run)
        self.loads.append((placed.start, placed.end + self.gap, amount))

    @property
    def steps(self) -> list[tuple[int, int]]:
        """The levels of the loads; asked for only when all are there."""
        if self._steps is None:
            self._steps = levels(self.loads)
        return self._steps


class AllLoads:
    """The loads of every supply, and of every limit of controllers and programs."""

    def __init__(self, problem: Problem, runs: Sequence[Placed]) -> None:
        self.problem = problem
        self.supplies = [LimitLoads("flow", index, node.limit) for index, node in enumerate(problem.supplies)]
        self._open: dict[int, LimitLoads] = {}
        self._current: dict[int, LimitLoads] = {}
        self._program_flow: dict[int, LimitLoads] = {}
        self._program_open: dict[int, LimitLoads] = {}
        self._limit_cabinets()
        self._limit_programs()
        self._paths = [problem.path(index) for index in range(len(problem.supplies))]
        amounts = [self.limits_of(chain) for chain in range(len(problem.chains))]
        for number, run in enumerate(runs):
            for limit, amount in amounts[run.chain]:
                limit.add(number, run, amount)

    @property
    def limits(self) -> list[LimitLoads]:
        """Everything that has a limit: programs, controllers, then supplies."""
        others = (self._program_open, self._program_flow, self._current, self._open)
        found = [limit for group in others for limit in group.values()]
        return found + [supply for supply in self.supplies if supply.limit is not None]

    def limits_of(self, chain: int) -> list[tuple[LimitLoads, int]]:
        """Everything that a chain's runs load, and by how much; its own supply before what feeds it."""
        link = self.problem.chains[chain]
        found: list[tuple[LimitLoads, int]] = [(self.supplies[node], link.flow) for node in self._paths[link.supply]]
        if link.controller in self._open:
            found.append((self._open[link.controller], 1))
        if link.controller in self._current:
            found.append((self._current[link.controller], link.current))
        if link.program in self._program_flow:
            found.append((self._program_flow[link.program], link.flow))
        if link.program in self._program_open:
            found.append((self._program_open[link.program], 1))
        return found

    def _limit_cabinets(self) -> None:
        for index, cabinet in enumerate(self.problem.controllers):
            if cabinet.max_open is not None:
                self._open[index] = LimitLoads("open", index, cabinet.max_open, cabinet.gap)
            if cabinet.max_current is not None:
                self._current[index] = LimitLoads("current", index, cabinet.max_current)

    def _limit_programs(self) -> None:
        for index, program in enumerate(self.problem.programs):
            if program.limit is not None:
                self._program_flow[index] = LimitLoads("program_flow", index, program.limit)
            if program.max_open is not None:
                self._program_open[index] = LimitLoads("program_open", index, program.max_open)
