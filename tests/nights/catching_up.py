"""Interrupted nights to hold the catch-up against CP-SAT: small, with little time left, any family and outage."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from random import Random

from pengan.engine.catch_up.ahead import water
from pengan.engine.catch_up.clock import keep
from pengan.engine.catch_up.free import everything_left
from pengan.engine.catch_up.happened import Happened
from pengan.engine.catch_up.left import Left
from pengan.engine.catch_up.recover import Recovered, by_the_clock, recovered
from pengan.engine.catch_up.rest import full_effort, left_of_night
from pengan.engine.check import violations
from pengan.engine.document.document import Document
from pengan.engine.plan.dues import ASKED_RANK
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.problem import Plan
from pengan.engine.plan.sheet import NightSheet

from .as_document import NIGHT, as_document
from .cp_sat import most_by_rank, most_water
from .families import night
from .happening import as_it_came
from .measure import placed_by_rank

SLACKS_S = (0, 1200, 2700, 5400)
"""How much later than its own finish a night may end."""


@dataclass(frozen=True)
class Interrupted:
    """A site, its sheet, and what happened until `now`, an instant."""

    document: Document
    sheet: NightSheet
    now: int
    happened: Happened


@dataclass(frozen=True, slots=True)
class Share:
    """Water from now on, in mL/min × s: by the clock, recovered, and the most that CP-SAT finds in whole cycles."""

    clock: int
    ours: int
    most: int
    proved: bool

    @property
    def of_recoverable(self) -> float:
        """The share recovered of what keeping to the clock misses and could come; 1 where that is nothing."""
        return (self.ours - self.clock) / (self.most - self.clock) if self.most > self.clock else 1.0

    @property
    def of_all(self) -> float:
        """The share of all water that could come."""
        return self.ours / self.most if self.most else 1.0


def interrupted(family: str, stations: int, seed: int, *, effort: int = 100) -> Interrupted:
    """A night of this family that is interrupted in its first half, with little slack before it has to end."""
    random = Random(f"{family}-{stations}-{seed}")
    document = as_document(night(family, stations, seed))
    sheet = plan_night(document, NIGHT, effort=effort)
    assert sheet.finish is not None
    ends = datetime.fromtimestamp((sheet.finish + random.choice(SLACKS_S)) // 60 * 60, UTC)
    document = replace(document, site=replace(document.site, finish_by=ends.strftime("%H:%M")))
    sheet = plan_night(document, NIGHT, effort=effort, before=sheet)
    first, last = sheet.runs[0].start, max(run.end for run in sheet.runs)
    now = random.randrange(first + 600, (first + last) // 2 + 900)
    happened, _ = as_it_came(random, document, sheet, now, odd=random.choice((0.0, 0.3)))
    return Interrupted(document, sheet, now, happened)


def found_for(one: Interrupted) -> tuple[Left, int, Recovered]:
    """What is left, the water that keeping to the clock brings, and what was recovered with the default effort."""
    left = left_of_night(one.document, one.sheet, one.now, one.happened)
    kept = keep(left)
    clock = by_the_clock(left, kept)
    return left, water(left, clock), recovered(left, kept, full_effort(clock), lambda _count: None)


def share_of(one: Interrupted, seconds: float, workers: int) -> Share:
    """Beside CP-SAT's most water for every cycle that is left; by rank, where turns have several."""
    left, clock, found = found_for(one)
    if violations(found.ahead.problem, found.ahead.plan):
        raise AssertionError("the rest breaks a limit")
    _, problem = everything_left(left)
    nothing = Plan(tuple((None,) * len(chain.cycles) for chain in problem.chains), (), 0)
    refer = most_by_rank if len({chain.rank for chain in problem.chains} - {ASKED_RANK}) > 1 else most_water
    reference = refer(problem, nothing, seconds, workers) if problem.chains else None
    if reference and violations(problem, reference.plan):
        raise AssertionError("the reference breaks a limit: the model and the check disagree")
    most = sum(placed_by_rank(problem, reference.plan).values()) if reference else 0
    return Share(clock, water(found.left, found.ahead), most, reference is None or reference.proved)
