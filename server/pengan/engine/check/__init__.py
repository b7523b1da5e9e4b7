"""Whether a finished plan breaks a limit: every limit looked at anew, with not a line of the solver.

`violations(problem, plan)` is what tests, server and phone ask before they trust a plan. It sweeps over
whole seconds in O(n log n) for n openings, and reports every limit that is broken, not the first alone.

How a rule is added
===================
A rule is one file in this folder. To add one:

1. Name the file after the limit (`program_open.py`). Give it a `RULE`, the code that a violation of it
   carries and that tests name, and declare its sentence with `saying("check.<rule>", …)` beside it.
2. Write `violations(problem, opened) -> Iterator[Violation]`. `opened` holds the plan's openings (`opening.py`).
   A limit on a sum over time needs no loop of its own: give `sweep.excesses` the loads and the limit.
   Report once for each thing that breaks the rule (its id is the `subject`), with the first second at which it does.
3. Add the module to `RULES` below. Nothing else is to be registered.
4. Say the same again, second by second and as plainly as can be, in `tests/engine/check/test_second_by_second.py`,
   and add to `test_broken_plans.py` beside it a plan that breaks this rule alone. Both fail until that is done.
5. If the limit comes from the document, let `plan/build.py` carry it into the problem; if people should read
   what it made a run wait for, add its rung to `plan/why.py`.

What is no rule here: the steady and the least flow of a supply are aimed at and reported, never broken.
"""

from __future__ import annotations

from ..plan.problem import Plan, Problem
from . import (
    apart,
    controller_current,
    controller_open,
    cycle_once,
    fixed_start,
    night,
    program_flow,
    program_open,
    program_order,
    soak,
    station_busy,
    supply_flow,
    window,
)
from .opening import openings
from .violation import Violation

__all__ = ["RULES", "Violation", "violations"]

RULES = (
    cycle_once,
    night,
    window,
    soak,
    fixed_start,
    station_busy,
    apart,
    supply_flow,
    controller_open,
    controller_current,
    program_flow,
    program_open,
    program_order,
)


def violations(problem: Problem, plan: Plan) -> tuple[Violation, ...]:
    """Every limit of `problem` that `plan` breaks, in the order of `RULES`, then of the problem. None: it is sound."""
    opened = openings(problem, plan)
    return tuple(found for rule in RULES for found in rule.violations(problem, opened))
