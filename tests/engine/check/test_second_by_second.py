"""The check agrees with a count of every second, on thousands of small plans, most of them broken."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from pengan.engine.check import RULES, Violation, violations
from pengan.engine.plan.problem import Cabinet, Chain, Plan, Problem, ProgramLimit, SupplyNode

PLANS = 4000
LENGTH = 40

Breach = tuple[str, str, int]
"""Rule, subject, first second."""


def plainly(problem: Problem, plan: Plan) -> set[Breach]:
    """What is broken, found by looking at each second and each pair in turn. Slow and plain on purpose."""
    first: dict[tuple[str, str], int] = {}
    for rule, subject, second in [*_each_second(problem, plan), *_each_chain(problem, plan)]:
        first[rule, subject] = min(second, first.get((rule, subject), second))
    return {(rule, subject, second) for (rule, subject), second in first.items()}


def _open_at(problem: Problem, plan: Plan, second: int, linger: bool = False) -> list[Chain]:
    """The chain of each opening that is open at this second; with `linger` also those whose valve still rests."""
    found = []
    for chain, starts in zip(problem.chains, plan.starts, strict=True):
        gap = problem.controllers[chain.controller].gap if linger and chain.controller is not None else 0
        for length, start in zip(chain.cycles, starts, strict=False):
            if start is not None and start <= second < start + length + gap:
                found.append(chain)
    return found


def _each_second(problem: Problem, plan: Plan) -> Iterator[Breach]:
    for second in range(-5, LENGTH + 60):
        now = _open_at(problem, plan, second)
        resting = _open_at(problem, plan, second, linger=True)
        for index, supply in enumerate(problem.supplies):
            drawn = sum(chain.flow for chain in now if index in problem.path(chain.supply))
            if supply.limit is not None and drawn > supply.limit:
                yield "supply_flow", supply.key, second
        for index, box in enumerate(problem.controllers):
            if box.max_open is not None and sum(chain.controller == index for chain in resting) > box.max_open:
                yield "controller_open", box.key, second
            current = sum(chain.current for chain in now if chain.controller == index)
            if box.max_current is not None and current > box.max_current:
                yield "controller_current", box.key, second
        for index, program in enumerate(problem.programs):
            of_it = [chain for chain in now if chain.program == index]
            if program.limit is not None and sum(chain.flow for chain in of_it) > program.limit:
                yield "program_flow", program.key, second
            if program.max_open is not None and len(of_it) > program.max_open:
                yield "program_open", program.key, second
        stations = [chain.station for chain in now]
        for one, key in enumerate(problem.stations):
            if stations.count(one) > 1:
                yield "station_busy", key, second
            for other in range(one + 1, len(problem.stations)):
                told = other in problem.apart[one] or one in problem.apart[other]
                if told and one in stations and other in stations:
                    yield "apart", f"{key}+{problem.stations[other]}", second


def _each_chain(problem: Problem, plan: Plan) -> Iterator[Breach]:
    begun: dict[int, int] = {}
    for chain, starts in zip(problem.chains, plan.starts, strict=True):
        if len(starts) != len(chain.cycles):
            yield "cycle_once", chain.key, 0
        free = {second for span in problem.calendars[chain.calendar] for second in range(*span)}
        may = set(range(max(0, chain.release), min(LENGTH, chain.deadline)))
        for cycle, (length, start) in enumerate(zip(chain.cycles, starts, strict=False)):
            if start is None:
                continue
            seconds = set(range(start, start + length))
            subject = f"{chain.key}/{cycle + 1}"
            if not seconds <= free:
                yield "window", subject, start
            if not seconds <= may:
                yield "night", subject, start
            before = starts[cycle - 1] if cycle else -999
            if before is None or start < before + (chain.cycles[cycle - 1] if cycle else 0) + chain.soak:
                yield "soak", subject, start
        if not starts or starts[0] is None:
            continue
        if chain.fixed is not None and starts[0] != chain.fixed:
            yield "fixed_start", chain.key, starts[0]
        if problem.programs[chain.program].ordered and chain.fixed is None:
            if starts[0] < begun.get(chain.program, starts[0]):
                yield "program_order", chain.key, starts[0]
            begun[chain.program] = max(starts[0], begun.get(chain.program, starts[0]))


def some_problem(dice: random.Random) -> Problem:
    """A night of forty seconds with a few of everything, limits tight enough to be broken often."""
    supplies = tuple(
        SupplyNode(f"s{i}", dice.choice([None, *range(i)]), dice.choice([None, 3, 5, 8])) for i in range(4)
    )
    boxes = tuple(
        Cabinet(f"c{i}", dice.choice([None, 1, 2]), dice.choice([None, 4, 6]), dice.choice([0, 0, 2])) for i in range(2)
    )
    programs = tuple(
        ProgramLimit(f"p{i}", dice.choice([None, 4]), dice.choice([None, 1, 2]), dice.random() < 0.5) for i in range(3)
    )
    stations = tuple(f"t{i}" for i in range(6))
    apart = tuple(frozenset(dice.sample(range(6), dice.choice([0, 0, 1, 2])) + [i]) - {i} for i in range(6))
    calendars = ((((0, LENGTH),)), ((0, 12), (15, 30), (34, LENGTH)))
    chains = tuple(some_chain(dice, index, supplies) for index in range(dice.randint(1, 9)))
    return Problem(LENGTH, supplies, boxes, programs, stations, chains, calendars, apart)


def some_chain(dice: random.Random, index: int, supplies: tuple[SupplyNode, ...]) -> Chain:
    """One turn of one to three cycles."""
    return Chain(
        key=f"k{index}",
        station=dice.randrange(6),
        supply=dice.randrange(len(supplies)),
        controller=dice.choice([None, 0, 1]),
        program=dice.randrange(3),
        flow=dice.randint(1, 4),
        current=dice.randint(0, 3),
        cycles=tuple(dice.randint(1, 6) for _ in range(dice.randint(1, 3))),
        soak=dice.choice([0, 0, 3]),
        rank=dice.randint(1, 9),
        release=dice.choice([0, 0, 5]),
        deadline=dice.choice([LENGTH, LENGTH, 30]),
        calendar=dice.randrange(2),
        fixed=dice.choice([None, None, None, 7]),
    )


def some_plan(dice: random.Random, problem: Problem) -> Plan:
    """Cycles thrown into the night: one after another for the most part, at times anywhere, left out or miscounted."""
    starts: list[tuple[int | None, ...]] = []
    for chain in problem.chains:
        now, mine = dice.randint(0, 25), list[int | None]()
        for length in chain.cycles:
            now = dice.randint(-2, LENGTH + 2) if dice.random() < 0.1 else now
            mine.append(None if dice.random() < 0.1 else now)
            now += length + dice.choice([chain.soak, chain.soak, dice.randint(0, 4)])
        if dice.random() < 0.02:
            mine.pop()
        if dice.random() < 0.02:
            mine.append(0)
        starts.append(tuple(mine))
    return Plan(tuple(starts), (), 1)


@pytest.mark.parametrize("part", range(4))
def test_the_sweeps_find_what_counting_every_second_finds(part: int) -> None:
    dice = random.Random(20_000 + part)
    seen: dict[str, int] = {}
    for _ in range(PLANS // 4):
        problem = some_problem(dice)
        plan = some_plan(dice, problem)
        found = {(one.rule, one.subject, one.second) for one in _firsts(problem, plan)}
        assert found == plainly(problem, plan)
        for rule, _subject, _second in found:
            seen[rule] = seen.get(rule, 0) + 1
    assert set(seen) == {rule.RULE for rule in RULES}, "each rule is broken somewhere among these plans"
    assert min(seen.values()) >= 10


def _firsts(problem: Problem, plan: Plan) -> Iterator[Violation]:
    """The violations, one for each rule and subject: a cycle can be both too early and too late."""
    told: set[tuple[str, str]] = set()
    for one in violations(problem, plan):
        if (one.rule, one.subject) not in told:
            told.add((one.rule, one.subject))
            yield one
