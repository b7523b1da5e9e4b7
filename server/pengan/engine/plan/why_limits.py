"""The rungs of limits that runs share: flow, valves, current."""

from __future__ import annotations

from ..message import Message, saying
from .levels import free_since
from .loads import AllLoads, LimitLoads
from .problem import Problem
from .water import litres

SUPPLY_FLOW = saying("why.supply_flow", "Waits for {supply} to fall below {free_lpm}.")
CONTROLLER_OPEN = saying("why.controller_open", "Waits for a valve of {controller} to close: {open_count} may be open.")
VALVE_GAP = saying("why.valve_gap", "Waits for a valve of {controller} to close and rest for {gap_s}.")
CONTROLLER_CURRENT = saying("why.controller_current", "Waits for the current of {controller} to fall below {free_ma}.")
PROGRAM_FLOW = saying("why.program_flow", "Waits for program {program} to fall below {free_lpm}, by its own limit.")
PROGRAM_OPEN = saying("why.program_open", "Waits for a station of program {program} to end: {open_count} may be open.")

Rungs = list[list[tuple[int, Message]]]
"""For each run: seconds of the night and what is waited for until then."""


def limit_rungs(problem: Problem, loads: AllLoads, climbed: Rungs) -> None:
    """Add the rung of every limit that held a run up at some time."""
    for limit in loads.limits:
        said: dict[int, Message] = {}
        assert limit.limit is not None
        freed = free_since(limit.steps, limit.loads, limit.limit)
        for run, load, since in zip(limit.runs, limit.loads, freed, strict=True):
            if since:
                amount = load[2]
                if amount not in said:
                    said[amount] = _waits(problem, limit, limit.limit, amount)
                climbed[run].append((since, said[amount]))


def _waits(problem: Problem, limit: LimitLoads, most: int, amount: int) -> Message:
    free = most - amount
    if limit.what == "flow":
        return SUPPLY_FLOW(supply=problem.supplies[limit.index].key, free_lpm=litres(free))
    if limit.what == "open" and limit.gap:
        return VALVE_GAP(controller=problem.controllers[limit.index].key, gap_s=limit.gap)
    if limit.what == "open":
        return CONTROLLER_OPEN(controller=problem.controllers[limit.index].key, open_count=most)
    if limit.what == "current":
        return CONTROLLER_CURRENT(controller=problem.controllers[limit.index].key, free_ma=free)
    if limit.what == "program_flow":
        return PROGRAM_FLOW(program=problem.programs[limit.index].key, free_lpm=litres(free))
    return PROGRAM_OPEN(program=problem.programs[limit.index].key, open_count=most)
