"""Families of made-up nights, each hard in its own way; about three cycles a station.

All figures are invented, within the sizes usual in the trade: stations of 10 to 120 L/min, cycles of 3 to
12 minutes, soaks of 10 to 40, valves of 180 to 420 mA (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

from pengan.engine.plan.problem import Problem, Span

from .sketch import DUSK_S, NIGHT_S, Sketch, open_spans

LPM = 1000
"""Millilitres per minute in one L/min."""
TARGET_S = 9 * 3600
"""How long a night should last at full flow where there are stations enough to fill it."""


def night(family: str, stations: int, seed: int) -> Problem:
    """The night of this family with so many stations. The same seed gives the same night on every machine."""
    return FAMILIES[family](Random(f"{family}-{stations}-{seed}"), stations)


def _flow(random: Random) -> int:
    """10 to 120 L/min in steps of half a litre, small ones more often."""
    return int(min(120.0, max(10.0, random.lognormvariate(3.6, 0.6))) * 2) * LPM // 2


def _cycles(random: Random, shortest: int = 180, longest: int = 720) -> tuple[int, ...]:
    """Two to four cycles of one turn, equal but for the second that a division leaves."""
    return (random.randrange(shortest, longest + 1, 15),) * random.choice((2, 3, 3, 4))


def _soak(random: Random, shortest: int = 600, longest: int = 2400) -> int:
    return random.randrange(shortest, longest + 1, 60)


def _volume(sketch: Sketch) -> dict[int, int]:
    """Flow × seconds due at each supply, by what hangs on it directly."""
    due = dict.fromkeys(range(len(sketch.supplies)), 0)
    for chain in sketch.chains:
        due[chain.supply] += chain.flow * sum(chain.cycles)
    return due


def _fit_limits(sketch: Sketch, share: Callable[[int], float], seconds: int = TARGET_S) -> None:
    """Limit each node so that its water takes `seconds × share(node)`, but at least 1.6 times its largest station."""
    due = _volume(sketch)
    largest = dict.fromkeys(due, 0)
    for chain in sketch.chains:
        largest[chain.supply] = max(largest[chain.supply], chain.flow)
    for node in reversed(range(len(sketch.supplies))):
        fair = int(due[node] / (seconds * share(node)))
        limit = max(fair, largest[node] * 8 // 5, LPM)
        parent = sketch.supplies[node].parent
        if parent is not None:
            due[parent] += due[node]
            largest[parent] = max(largest[parent], largest[node])
        sketch.supplies[node] = replace(sketch.supplies[node], limit=-(-limit // LPM) * LPM)


def _scatter(sketch: Sketch, random: Random, stations: int, leaves: list[int]) -> None:
    for number in range(stations):
        supply = leaves[number] if number < len(leaves) else random.choice(leaves)
        sketch.chain(supply=supply, flow=_flow(random), cycles=_cycles(random), soak=_soak(random))


def tight(random: Random, stations: int) -> Problem:
    """One source, and water for all of the night."""
    sketch = Sketch()
    _scatter(sketch, random, stations, [sketch.supply(None)])
    _fit_limits(sketch, lambda node: 1.0)
    return sketch.freeze()


def sources(random: Random, stations: int) -> Problem:
    """Six sources, not all equally busy."""
    sketch = Sketch()
    _scatter(sketch, random, stations, [sketch.supply(None) for _ in range(min(6, stations))])
    busy = [random.uniform(0.7, 1.0) for _ in sketch.supplies]
    _fit_limits(sketch, lambda node: busy[node])
    return sketch.freeze()


def deep_tree(random: Random, stations: int) -> Problem:
    """Sources, mains and sub-mains, with limits that bind at every level."""
    sketch = Sketch()
    leaves: list[int] = []
    fan = max(2, round((stations / 12) ** (1 / 3)))
    for source in [sketch.supply(None) for _ in range(min(fan, 4))]:
        for main in [sketch.supply(None, source) for _ in range(fan)]:
            leaves.append(main)
            leaves.extend(sketch.supply(None, main) for _ in range(fan))
    _scatter(sketch, random, stations, leaves)
    busy = [random.uniform(0.6, 1.0) for _ in sketch.supplies]
    _fit_limits(sketch, lambda node: busy[node])
    return sketch.freeze()


def electrical(random: Random, stations: int) -> Problem:
    """Cabinets that open few valves at a time, with a current limit and a gap; two sources with water to spare."""
    sketch = Sketch()
    leaves = [sketch.supply(None), sketch.supply(None)]
    cabinets = [_cabinet(sketch, random) for _ in range(max(1, stations // 24))]
    for _ in range(stations):
        sketch.chain(
            supply=random.choice(leaves),
            flow=_flow(random),
            cycles=_cycles(random),
            soak=_soak(random),
            controller=random.choice(cabinets),
            current=random.randrange(180, 421, 20),
        )
    _fit_limits(sketch, lambda node: 0.85)
    return sketch.freeze()


def _cabinet(sketch: Sketch, random: Random) -> int:
    if random.random() < 0.5:
        return sketch.controller(random.choice((1, 2, 2, 3)), None, random.choice((2, 5, 10)))
    return sketch.controller(random.choice((None, 3, 4)), random.choice((600, 800, 1200)), random.choice((0, 3, 5)))


def closures(random: Random, stations: int) -> Problem:
    """Two holes in the night for all, more for some."""
    sketch = Sketch()
    source = sketch.supply(None)
    shared = (_hole(random, 2), _hole(random, 6))
    kinds = [sketch.calendar(open_spans(DUSK_S, NIGHT_S, shared))]
    for extra in (1, 1, 2):
        holes = shared + tuple(_hole(random, random.randrange(0, 8)) for _ in range(extra))
        kinds.append(sketch.calendar(open_spans(DUSK_S, NIGHT_S, holes)))
    for _ in range(stations):
        calendar = random.choice(kinds)
        sketch.chain(
            supply=source, flow=_flow(random), cycles=_cycles(random), soak=_soak(random), calendar=calendar
        )  # fmt: skip
    _fit_limits(sketch, lambda node: 0.8)
    return sketch.freeze()


def _hole(random: Random, hour: int) -> Span:
    start = DUSK_S + hour * 3600 + random.randrange(0, 1800, 60)
    return start, start + random.randrange(1200, 4800, 60)


def long_soaks(random: Random, stations: int) -> Problem:
    """Many short cycles with one to two hours between them."""
    sketch = Sketch()
    source = sketch.supply(None)
    for _ in range(stations):
        cycles = (random.randrange(120, 420, 15),) * random.choice((3, 4, 5))
        sketch.chain(supply=source, flow=_flow(random), cycles=cycles, soak=_soak(random, 3600, 7200))
    _fit_limits(sketch, lambda node: 1.0)
    return sketch.freeze()


def one_dominant(random: Random, stations: int) -> Problem:
    """One station that takes more than half of the source for most of the night, and the small ones around it."""
    sketch = Sketch()
    _scatter(sketch, random, stations, [sketch.supply(None)])
    due = _volume(sketch)[0]
    largest = max(chain.flow for chain in sketch.chains)
    limit = max(due * 3 // (2 * TARGET_S), largest * 2) // LPM * LPM
    seconds = due * 3 // 2 // limit
    cycle = max(300, seconds * 7 // 10 // 3)
    sketch.chains[0] = replace(sketch.chains[0], flow=limit * 11 // 20, cycles=(cycle,) * 3, soak=cycle // 5)
    sketch.supplies[0] = replace(sketch.supplies[0], limit=limit)
    return sketch.freeze()


def overfull(random: Random, stations: int) -> Problem:
    """A fifth to a half more water due than there is time for; three ranks."""
    sketch = Sketch()
    leaves = [sketch.supply(None) for _ in range(1 if stations < 200 else 3)]
    _scatter(sketch, random, stations, leaves)
    _fit_limits(sketch, lambda node: 1.0)
    full = [due / (sketch.supplies[node].limit or 1) for node, due in _volume(sketch).items()]
    dawn = [DUSK_S + int(due / random.uniform(1.2, 1.5)) for due in full]
    sketch.chains = [replace(c, rank=random.choice((1, 2, 2, 3)), deadline=dawn[c.supply]) for c in sketch.chains]
    return sketch.freeze()


def mixed(random: Random, stations: int) -> Problem:
    """Something of everything: a tree, cabinets, closures, programs with limits and order, pairs kept apart, ranks."""
    sketch = Sketch()
    leaves = []
    for source in [sketch.supply(None) for _ in range(2)]:
        leaves.extend([source, sketch.supply(None, source), sketch.supply(None, source)])
    cabinets: list[int | None] = [_cabinet(sketch, random) for _ in range(max(1, stations // 30))]
    whole = sketch.calendar(open_spans(DUSK_S, NIGHT_S, ()))
    holed = sketch.calendar(open_spans(DUSK_S, NIGHT_S, (_hole(random, 1), _hole(random, 4))))
    programs = [0, sketch.program(max_open=max(2, stations // 8)), sketch.program(ordered=True)]
    for _ in range(stations):
        sketch.chain(
            supply=random.choice(leaves),
            flow=_flow(random),
            cycles=_cycles(random),
            soak=_soak(random),
            controller=random.choice([*cabinets, *cabinets, None]),
            program=random.choice(programs),
            current=random.randrange(180, 421, 20),
            rank=random.choice((1, 3, 5, 5)),
            release=DUSK_S + random.choice((0, 0, 900, 3600)),
            calendar=random.choice((whole, whole, holed)),
        )
    sketch.pairs = [(a, b) for a, b in zip(range(0, stations, 7), range(3, stations, 7), strict=False) if a != b]
    _fit_limits(sketch, lambda node: 0.8)
    return sketch.freeze()


FAMILIES: dict[str, Callable[[Random, int], Problem]] = {
    "tight": tight,
    "sources": sources,
    "deep_tree": deep_tree,
    "electrical": electrical,
    "closures": closures,
    "long_soaks": long_soaks,
    "one_dominant": one_dominant,
    "overfull": overfull,
    "mixed": mixed,
}
