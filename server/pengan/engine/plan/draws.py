"""Each supply's draw over the night, and what a source's keeper should know of it."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Message, saying
from .build import Built
from .levels import changes_only
from .loads import AllLoads, LimitLoads
from .placed import Placed
from .sheet import Draw
from .water import litres, millilitres

START_SOURCE = saying(
    "notice.start_source",
    "Start {supply} at {start_at}: it takes {lead_s} to fill its pipes before the run at {first_at}.",
)
BELOW_LEAST = saying(
    "notice.below_least",
    "{supply} would give less than its least flow of {least_lpm} for {low_s}, first from {low_at} to {until_at}.",
)


def draws(built: Built, runs: list[Placed], loads: AllLoads) -> tuple[Draw, ...]:
    """One for every supply, in order of ids."""
    problem = built.problem
    volumes = [millilitres(problem.chains[run.chain].flow, run.end - run.start) for run in runs]
    return tuple(_draw(built, supply, volumes) for supply in loads.supplies)


def _draw(built: Built, supply: LimitLoads, volumes: list[int]) -> Draw:
    steps = changes_only(supply.steps)
    return Draw(
        supply=built.problem.supplies[supply.index].key,
        steps=tuple((built.tonight.instant(second), litres(level)) for second, level in steps),
        volume_l=litres(sum(volumes[run] for run in supply.runs)),
        peak_lpm=litres(max((level for _, level in steps), default=0)),
    )


def draw_notices(built: Built, loads: AllLoads) -> tuple[Message, ...]:
    """When to start each source, and where one would give less than its least flow. It is aimed at, and no limit."""
    found = (rule for supply in loads.supplies for rule in (*_lead(built, supply), *_least(built, supply)))
    return tuple(found)


def _lead(built: Built, supply: LimitLoads) -> Iterator[Message]:
    record = built.tonight.document.supplies[built.problem.supplies[supply.index].key]
    if record.lead_s and supply.loads:
        first = built.tonight.instant(supply.loads[0][0])
        yield START_SOURCE(supply=record.id, start_at=first - record.lead_s, lead_s=record.lead_s, first_at=first)


def _least(built: Built, supply: LimitLoads) -> Iterator[Message]:
    node = built.problem.supplies[supply.index]
    steps = supply.steps
    if not node.least:
        return
    low = [(at, until) for (at, level), (until, _) in zip(steps, steps[1:], strict=False) if 0 < level < node.least]
    if low:
        first, last = low[0]
        for at, until in low[1:]:
            last = until if at == last else last
        yield BELOW_LEAST(
            supply=node.key, least_lpm=litres(node.least), low_s=sum(until - at for at, until in low),
            low_at=built.tonight.instant(first), until_at=built.tonight.instant(last),
        )  # fmt: skip
