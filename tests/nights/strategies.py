"""Hypothesis strategies for small nights that use every field of a `Problem`, and for one limit more."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from pengan.engine.plan.problem import Chain, Problem, Span, SupplyNode

from .sketch import Sketch, open_spans

LENGTH_S = 4 * 3600
"""Short nights: little room makes limits meet."""
FLOWS = st.integers(1, 12).map(lambda units: units * 10_000)


@st.composite
def nights(draw: st.DrawFn, most_chains: int = 8, plain: bool = False) -> Problem:
    """A night of few chains. `plain`: nothing placed late or at a chosen time, all released at once."""
    sketch = Sketch(LENGTH_S)
    sketch.calendars = [((0, LENGTH_S),)]
    sketch.programs = []
    for _ in range(draw(st.integers(1, 4))):
        parents = st.none() if not sketch.supplies else st.sampled_from([None, *range(len(sketch.supplies))])
        sketch.supply(draw(st.none() | st.integers(12, 30).map(lambda units: units * 10_000)), draw(parents))
    for _ in range(draw(st.integers(0, 2))):
        sketch.controller(
            draw(st.none() | st.integers(1, 3)), draw(st.none() | st.integers(400, 900)), draw(st.sampled_from((0, 7)))
        )
    for _ in range(draw(st.integers(1, 3))):
        limit = draw(st.none() | st.integers(12, 20).map(lambda units: units * 10_000))
        sketch.program(limit, draw(st.none() | st.integers(1, 3)), draw(st.booleans()))
    for _ in range(draw(st.integers(0, 2))):
        sketch.calendar(_closed(draw(st.lists(_holes(), min_size=1, max_size=3))))
    late = frozenset() if plain else draw(st.frozensets(st.integers(0, len(sketch.programs) - 1)))
    for _ in range(draw(st.integers(1, most_chains))):
        draw(_chain(sketch, plain, late))
    pair = st.tuples(*[st.integers(0, len(sketch.stations) - 1)] * 2).filter(lambda two: two[0] != two[1])
    sketch.pairs = draw(st.lists(pair, max_size=2)) if len(sketch.stations) > 1 else []
    return sketch.freeze()


def _holes() -> st.SearchStrategy[Span]:
    return st.tuples(st.integers(0, LENGTH_S - 1), st.integers(60, 3600)).map(lambda two: (two[0], two[0] + two[1]))


def _closed(holes: list[Span]) -> tuple[Span, ...]:
    return open_spans(0, LENGTH_S, tuple(holes))


@st.composite
def _chain(draw: st.DrawFn, sketch: Sketch, plain: bool, late: frozenset[int]) -> None:
    """Add a chain, late where its program is; now and then a second turn of a station that has one."""
    release = 0 if plain else draw(st.sampled_from((0, 0, 0, 600, 3601)))
    station = sketch.chain(
        supply=draw(st.integers(0, len(sketch.supplies) - 1)),
        flow=draw(FLOWS),
        cycles=tuple(draw(st.lists(st.integers(1, 1800), min_size=1, max_size=4))),
        soak=draw(st.sampled_from((0, 1, 300, 1200))),
        controller=draw(st.sampled_from([None, *range(len(sketch.controllers))])),
        program=draw(st.integers(0, len(sketch.programs) - 1)),
        current=draw(st.integers(0, 400)),
        rank=draw(st.integers(1, 3)),
        release=release,
        deadline=LENGTH_S if plain else draw(st.sampled_from((LENGTH_S, LENGTH_S, 9000))),
        calendar=draw(st.integers(0, len(sketch.calendars) - 1)),
        fixed=None if plain else draw(st.none() | st.none() | st.integers(release, LENGTH_S - 2000)),
    )
    if station and draw(st.integers(0, 5)) == 0:
        sketch.stations.pop()
        station -= 1
    added = sketch.chains[-1]
    sketch.chains[-1] = replace(added, station=station, late=added.program in late and added.fixed is None)


@st.composite
def one_limit_more(draw: st.DrawFn, problem: Problem) -> Problem:
    """The same night with one limit added or tightened, still such that every cycle alone could run."""
    return draw(st.sampled_from((_narrower_supply, _fewer_open, _pair, _later_release, _longer_soak, _less_current)))(
        draw, problem
    )


def _narrower_supply(draw: st.DrawFn, problem: Problem) -> Problem:
    node = draw(st.integers(0, len(problem.supplies) - 1))
    fed = [chain.flow for chain in problem.chains if node in problem.path(chain.supply)]
    limit = max([10_000, *fed, (problem.supplies[node].limit or 300_000) * 2 // 3])
    limit = min(limit, problem.supplies[node].limit or limit)
    supplies: list[SupplyNode] = list(problem.supplies)
    supplies[node] = replace(supplies[node], limit=limit)
    return replace(problem, supplies=tuple(supplies))


def _fewer_open(draw: st.DrawFn, problem: Problem) -> Problem:
    return replace(problem, programs=tuple(replace(program, max_open=1) for program in problem.programs))


def _pair(draw: st.DrawFn, problem: Problem) -> Problem:
    one, other = 0, draw(st.integers(0, len(problem.stations) - 1))
    apart = [set(others) for others in problem.apart]
    if one != other:
        apart[one].add(other)
        apart[other].add(one)
    return replace(problem, apart=tuple(map(frozenset, apart)))


def _later_release(draw: st.DrawFn, problem: Problem) -> Problem:
    wait = draw(st.sampled_from((60, 900)))
    return _each(problem, lambda chain: replace(chain, release=chain.release + wait))


def _longer_soak(draw: st.DrawFn, problem: Problem) -> Problem:
    return _each(problem, lambda chain: replace(chain, soak=chain.soak + 120))


def _less_current(draw: st.DrawFn, problem: Problem) -> Problem:
    controllers = tuple(
        replace(cabinet, max_current=max(400, (cabinet.max_current or 900) - 200)) for cabinet in problem.controllers
    )
    kept = tuple(
        replace(new, max_current=min(new.max_current or 0, old.max_current or 10_000))
        for new, old in zip(controllers, problem.controllers, strict=True)
    )
    return replace(problem, controllers=kept)


def _each(problem: Problem, change: object) -> Problem:
    assert callable(change)
    chains: list[Chain] = [change(chain) for chain in problem.chains]
    return replace(problem, chains=tuple(chains))
