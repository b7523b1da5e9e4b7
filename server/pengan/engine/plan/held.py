"""The bound on the night's end, what holds it there, and what a little more of that would bring."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from ..message import Message, saying
from . import solve as solver
from .bound import Hold, bound
from .build import Built
from .problem import Plan, Problem
from .sheet import Bound
from .water import litres, millilitres

BY_FLOW = saying("holds.flow", "{supply} decides: its flow limit.")
BY_OPEN = saying("holds.open", "{controller} decides: how many valves it may have open.")
BY_CURRENT = saying("holds.current", "{controller} decides: the current that it can give.")
BY_PROGRAM_FLOW = saying("holds.program_flow", "Program {program} decides: its own flow limit.")
BY_PROGRAM_OPEN = saying("holds.program_open", "Program {program} decides: how many of its stations may be open.")
BY_CHAIN = saying("holds.chain", "{station} decides: its cycles and soaks take that long.")
BY_APART = saying(
    "holds.apart", "{station} decides: its turns, and stations kept apart from it, run one after the other."
)

MORE_FLOW = saying("relief.flow", "{supply} decides: {more_lpm} more would end the night {sooner_s} sooner.")
MORE_OPEN = saying("relief.open", "{controller} decides: one more valve open would end the night {sooner_s} sooner.")
MORE_CURRENT = saying("relief.current", "{controller} decides: {more_ma} more would end the night {sooner_s} sooner.")
MORE_PROGRAM_FLOW = saying(
    "relief.program_flow", "Program {program} decides: {more_lpm} more would end the night {sooner_s} sooner."
)
MORE_PROGRAM_OPEN = saying(
    "relief.program_open", "Program {program} decides: one more station open would end the night {sooner_s} sooner."
)
MORE_WATER = saying("relief.water", "{supply} decides: {more_lpm} more would bring {more_l} more tonight.")

RELIEF_EFFORT = 2
"""Constructions spent on the question what more would bring; the plan it is held against is already the best known."""
WHOLE_STEP = 1000
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Relief:
    """The problem with one limit raised by about a twentieth, and by how much that is in the limit's unit."""

    problem: Problem
    more: int


def held(built: Built, plan: Plan, *, with_relief: bool) -> Bound | None:
    """The bound, its holder and, if wanted, the relief. None where nothing is due that could run."""
    if not built.problem.chains:
        return None
    hold = bound(built.problem)
    relief = relief_of(built.problem, plan, hold) if with_relief else None
    return Bound(built.tonight.instant(hold.at), _holder(built.problem, hold), relief)


def relief_of(problem: Problem, plan: Plan, hold: Hold) -> Message | None:
    """What a little more of the limit that decides brings, planned anew from the same order; None if nothing."""
    relief = raised(problem, hold)
    if relief is None or finish_of(problem, plan) is None:
        return None
    better = solver.solve(relief.problem, RELIEF_EFFORT, solver.Before(plan.order))
    brought = volume_of(relief.problem, better) - volume_of(problem, plan)
    sooner = (finish_of(problem, plan) or 0) - (finish_of(relief.problem, better) or 0)
    if brought == 0 and sooner > 0:
        return _sooner(problem, hold, relief.more, sooner)
    if brought > 0 and hold.limit == "flow":
        supply = problem.supplies[hold.index].key
        return MORE_WATER(supply=supply, more_lpm=litres(relief.more), more_l=litres(brought))
    return None


def raised(problem: Problem, hold: Hold) -> Relief | None:
    """The same night with the holder's limit raised. None for what is no number that somebody could raise."""
    if hold.limit == "flow" and (limit := problem.supplies[hold.index].limit):
        node = replace(problem.supplies[hold.index], limit=limit + _twentieth(limit))
        return Relief(replace(problem, supplies=_with(problem.supplies, hold.index, node)), _twentieth(limit))
    if hold.limit in ("open", "current"):
        return _more_of_controller(problem, hold)
    if hold.limit in ("program_flow", "program_open"):
        return _more_of_program(problem, hold)
    return None


def finish_of(problem: Problem, plan: Plan) -> int | None:
    """The second at which the last run ends."""
    ends = (
        start + seconds
        for chain, starts in zip(problem.chains, plan.starts, strict=True)
        for start, seconds in zip(starts, chain.cycles, strict=True)
        if start is not None
    )
    return max(ends, default=None)


def volume_of(problem: Problem, plan: Plan) -> int:
    """What the plan brings, in millilitres."""
    return sum(
        millilitres(chain.flow, seconds)
        for chain, starts in zip(problem.chains, plan.starts, strict=True)
        for start, seconds in zip(starts, chain.cycles, strict=True)
        if start is not None
    )


def _more_of_controller(problem: Problem, hold: Hold) -> Relief | None:
    cabinet = problem.controllers[hold.index]
    if hold.limit == "open" and cabinet.max_open:
        more, cabinet = 1, replace(cabinet, max_open=cabinet.max_open + 1)
    elif hold.limit == "current" and cabinet.max_current:
        more = max(1, cabinet.max_current // 20)
        cabinet = replace(cabinet, max_current=cabinet.max_current + more)
    else:
        return None
    return Relief(replace(problem, controllers=_with(problem.controllers, hold.index, cabinet)), more)


def _more_of_program(problem: Problem, hold: Hold) -> Relief | None:
    program = problem.programs[hold.index]
    if hold.limit == "program_open" and program.max_open:
        more, program = 1, replace(program, max_open=program.max_open + 1)
    elif hold.limit == "program_flow" and program.limit:
        more = _twentieth(program.limit)
        program = replace(program, limit=program.limit + more)
    else:
        return None
    return Relief(replace(problem, programs=_with(problem.programs, hold.index, program)), more)


def _twentieth(flow: int) -> int:
    """About a twentieth of a flow, in whole L/min where it is at least one."""
    part = max(1, flow // 20)
    return part if part < WHOLE_STEP else round(part / WHOLE_STEP) * WHOLE_STEP


def _with(some: tuple[T, ...], index: int, new: T) -> tuple[T, ...]:
    return (*some[:index], new, *some[index + 1 :])


def _holder(problem: Problem, hold: Hold) -> Message:
    if hold.limit == "flow":
        return BY_FLOW(supply=problem.supplies[hold.index].key)
    if hold.limit == "open":
        return BY_OPEN(controller=problem.controllers[hold.index].key)
    if hold.limit == "current":
        return BY_CURRENT(controller=problem.controllers[hold.index].key)
    if hold.limit == "program_flow":
        return BY_PROGRAM_FLOW(program=problem.programs[hold.index].key)
    if hold.limit == "program_open":
        return BY_PROGRAM_OPEN(program=problem.programs[hold.index].key)
    if hold.limit == "chain":
        return BY_CHAIN(station=problem.stations[problem.chains[hold.index].station])
    return BY_APART(station=problem.stations[hold.index])


def _sooner(problem: Problem, hold: Hold, more: int, sooner: int) -> Message:
    if hold.limit == "flow":
        return MORE_FLOW(supply=problem.supplies[hold.index].key, more_lpm=litres(more), sooner_s=sooner)
    if hold.limit == "open":
        return MORE_OPEN(controller=problem.controllers[hold.index].key, sooner_s=sooner)
    if hold.limit == "current":
        return MORE_CURRENT(controller=problem.controllers[hold.index].key, more_ma=more, sooner_s=sooner)
    program = problem.programs[hold.index].key
    if hold.limit == "program_flow":
        return MORE_PROGRAM_FLOW(program=program, more_lpm=litres(more), sooner_s=sooner)
    return MORE_PROGRAM_OPEN(program=program, sooner_s=sooner)
