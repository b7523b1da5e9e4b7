"""The same night put to OR-Tools' CP-SAT: an outside reference for what a plan could be.

The model is written from the problem's own words and shares no line with the planner. CP-SAT starts from the
planner's plan as a hint, so what it finds is never worse; how much better it is, is the planner's gap.
Source of the reference: Google OR-Tools CP-SAT, https://developers.google.com/optimization/cp/cp_solver
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from ortools.sat.python import cp_model

from pengan.engine.plan.problem import Chain, Plan, Problem


@dataclass(frozen=True, slots=True)
class Cycle:
    """One cycle in the model: where it starts, whether it is placed, how long it is and what it belongs to."""

    chain: Chain
    length: int
    start: cp_model.IntVar
    placed: cp_model.IntVar


@dataclass(frozen=True, slots=True)
class Reference:
    """CP-SAT's best plan, what it proved its objective to be bounded by, and whether the plan reaches that."""

    plan: Plan
    bound: int
    proved: bool


class NightModel:
    """A night's limits as CP-SAT constraints. `all_due`: every cycle must be placed."""

    def __init__(self, problem: Problem, all_due: bool) -> None:
        self.problem = problem
        self.model = cp_model.CpModel()
        self.cycles = [[self._cycle(chain, length, all_due) for length in chain.cycles] for chain in problem.chains]
        self._chains()
        self._supplies()
        self._controllers()
        self._programs()
        self._pairs()

    def _cycle(self, chain: Chain, length: int, all_due: bool) -> Cycle:
        spans = []
        for first, last in self.problem.calendars[chain.calendar]:
            begin, end = max(first, chain.release), min(last, chain.deadline) - length
            if begin <= end:
                spans.append([begin, end])
        placed = self.model.new_bool_var("")
        if all_due:
            self.model.add(placed == 1)
        if not spans:
            self.model.add(placed == 0)
        domain = cp_model.Domain.from_intervals(spans or [[0, 0]])
        return Cycle(chain, length, self.model.new_int_var_from_domain(domain, ""), placed)

    def _all(self) -> Iterable[Cycle]:
        return (cycle for cycles in self.cycles for cycle in cycles)

    def _interval(self, cycle: Cycle, gap: int = 0) -> cp_model.IntervalVar:
        size = cycle.length + gap
        return self.model.new_optional_interval_var(cycle.start, size, cycle.start + size, cycle.placed, "")

    def _chains(self) -> None:
        """Cycles in turn with their soaks, a fixed first start, and a station never open twice."""
        by_station: dict[int, list[Cycle]] = defaultdict(list)
        for chain, cycles in zip(self.problem.chains, self.cycles, strict=True):
            by_station[chain.station].extend(cycles)
            if chain.fixed is not None:
                self.model.add(cycles[0].start == chain.fixed).only_enforce_if(cycles[0].placed)
            for soon, late in pairwise(cycles):
                self.model.add_implication(late.placed, soon.placed)
                self.model.add(late.start >= soon.start + soon.length + chain.soak).only_enforce_if(late.placed)
        for cycles in by_station.values():
            if len({cycle.chain.key for cycle in cycles}) > 1:
                self.model.add_no_overlap([self._interval(cycle) for cycle in cycles])

    def _within(self, cycles: list[Cycle], demands: list[int], limit: int | None, gap: int = 0) -> None:
        if limit is not None and cycles:
            self.model.add_cumulative([self._interval(cycle, gap) for cycle in cycles], demands, limit)

    def _supplies(self) -> None:
        for node, supply in enumerate(self.problem.supplies):
            cycles = [cycle for cycle in self._all() if node in self.problem.path(cycle.chain.supply)]
            self._within(cycles, [cycle.chain.flow for cycle in cycles], supply.limit)

    def _controllers(self) -> None:
        """A valve's place stays taken for the gap after it closes; its current does not."""
        for index, cabinet in enumerate(self.problem.controllers):
            cycles = [cycle for cycle in self._all() if cycle.chain.controller == index]
            self._within(cycles, [1] * len(cycles), cabinet.max_open, cabinet.gap)
            self._within(cycles, [cycle.chain.current for cycle in cycles], cabinet.max_current)

    def _programs(self) -> None:
        """A program's own limits, and its listed order; a chain with a fixed time stands outside that."""
        for index, program in enumerate(self.problem.programs):
            cycles = [cycle for cycle in self._all() if cycle.chain.program == index]
            self._within(cycles, [cycle.chain.flow for cycle in cycles], program.limit)
            self._within(cycles, [1] * len(cycles), program.max_open)
            if program.ordered:
                chains = [
                    c for c, chain in enumerate(self.problem.chains) if chain.program == index and chain.fixed is None
                ]
                firsts = [self.cycles[c][0] for c in chains]
                for place, late in enumerate(firsts):
                    for soon in firsts[:place]:
                        self.model.add(late.start >= soon.start).only_enforce_if(soon.placed, late.placed)

    def _pairs(self) -> None:
        by_station: dict[int, list[Cycle]] = defaultdict(list)
        for cycle in self._all():
            by_station[cycle.chain.station].append(cycle)
        for one, others in enumerate(self.problem.apart):
            for other in others:
                if one < other or one not in self.problem.apart[other]:
                    self.model.add_no_overlap([self._interval(c) for c in by_station[one] + by_station[other]])

    def hint(self, plan: Plan) -> None:
        for cycles, starts in zip(self.cycles, plan.starts, strict=True):
            for cycle, start in zip(cycles, starts, strict=True):
                self.model.add_hint(cycle.placed, start is not None)
                if start is not None:
                    self.model.add_hint(cycle.start, start)

    def finish_early(self) -> None:
        finish = self.model.new_int_var(0, self.problem.length, "")
        for cycle in self._all():
            self.model.add(finish >= cycle.start + cycle.length).only_enforce_if(cycle.placed)
        self.model.minimize(finish)

    def serve_by_rank(self) -> None:
        """Most water for rank 1, then for rank 2, and so on, in one sum: a litre outweighs all that ranks below it."""
        ranks = sorted({chain.rank for chain in self.problem.chains}, reverse=True)
        weights, below = {}, 0
        for rank in ranks:
            weights[rank] = below + 1
            below += weights[rank] * sum(_litres(c) for c in self._all() if c.chain.rank == rank)
        self.model.maximize(sum(weights[c.chain.rank] * _litres(c) * c.placed for c in self._all()))

    def serve_most(self) -> None:
        """Most water in all, whoever gets it."""
        self.model.maximize(sum(_litres(cycle) * cycle.placed for cycle in self._all()))

    def solve(self, seconds: float, workers: int, *, seed: int = 0) -> Reference:
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.num_workers = workers
        solver.parameters.random_seed = seed
        status = solver.solve(self.model)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            raise NoPlanFound(solver.status_name(status))
        starts = tuple(
            tuple(solver.value(cycle.start) if solver.value(cycle.placed) else None for cycle in cycles)
            for cycles in self.cycles
        )
        bound = round(solver.best_objective_bound)
        return Reference(Plan(starts, (), 0), bound, status == cp_model.OPTIMAL)


class NoPlanFound(Exception):
    """CP-SAT found no plan at all in its time, or proved that there is none."""


def _litres(cycle: Cycle) -> int:
    """The cycle's water in whole litres, so that weighted sums stay within 63 bits."""
    return cycle.chain.flow * cycle.length // 60_000


def earliest_finish(problem: Problem, hint: Plan, seconds: float, workers: int) -> Reference:
    """CP-SAT's earliest finish with every cycle placed."""
    night = NightModel(problem, all_due=True)
    night.finish_early()
    night.hint(hint)
    return night.solve(seconds, workers)


def most_by_rank(problem: Problem, hint: Plan, seconds: float, workers: int) -> Reference:
    """CP-SAT's most water by rank, where not all of it fits."""
    night = NightModel(problem, all_due=False)
    night.serve_by_rank()
    night.hint(hint)
    return night.solve(seconds, workers)


def most_water(problem: Problem, hint: Plan, seconds: float, workers: int) -> Reference:
    """CP-SAT's most water, ranks apart."""
    night = NightModel(problem, all_due=False)
    night.serve_most()
    night.hint(hint)
    return night.solve(seconds, workers)
