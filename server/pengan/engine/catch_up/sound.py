"""Which of given runs can stand together: what the sheet planned, after an edit; what is open now, as it may be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from ..check import violations
from ..plan.network import Network
from ..plan.problem import Chain, Plan
from ..plan.solve.one_by_one import OneByOne
from .left import Left, Row
from .served import Served

Rows = Mapping[int, Row]
"""Runs by the number of their chain."""


def closing(left: Left) -> Left:
    """The same night with those open valves closed now that would break a limit together, the least important."""
    going = [c for c, turn in enumerate(left.turns) if turn.going]
    found = _closed(left, set(going))
    if holds(left, {}, whole=True):
        return left
    for c in sorted(going, key=lambda c: (left.ranks[c], c)):
        wider = _with(found, c, left.turns[c])
        found = wider if holds(wider, {}, whole=True) else found
    return found


def stretched(left: Left, rows: Rows) -> Left:
    """The same night with open runs that are late going on until they are whole, where these rows leave them room."""
    late = [c for c, turn in enumerate(left.turns) if turn.going and turn.going.whole > turn.going.clock]
    found = left
    for c in sorted(late, key=lambda c: (left.ranks[c], c)):
        going = left.turns[c].going
        assert going is not None
        soaked = going.whole + left.chains[c].soak
        wider = _with(found, c, replace(left.turns[c], going=replace(going, clock=going.whole)))
        if all(start >= soaked for start, _ in rows.get(c, ())) and holds(wider, rows, whole=False):
            found = wider
    return found


def _with(left: Left, c: int, turn: Served) -> Left:
    return replace(left, turns=(*left.turns[:c], turn, *left.turns[c + 1 :]))


def _closed(left: Left, chosen: set[int]) -> Left:
    turns = (turn.closed(left.now) if c in chosen else turn for c, turn in enumerate(left.turns))
    return replace(left, turns=tuple(turns))


def sound(left: Left, rows: Rows, *, whole: bool) -> Rows:
    """All of the runs if they break no limit; else those that fit, the important ones and then the earlier ones first.

    What is open now goes on. Where a listed order is broken, nothing of that program is kept that has not begun.
    """
    if holds(left, rows, whole=whole):
        return rows
    kept = _fitting(left, rows, whole=whole)
    if holds(left, kept, whole=whole):
        return kept
    ordered = [left.built.problem.programs[chain.program].ordered for chain in left.chains]
    return {c: row for c, row in kept.items() if left.turns[c].begun or not ordered[c]}


def holds(left: Left, rows: Rows, *, whole: bool) -> bool:
    """Whether these runs and what is open now break no limit of the rest of the night."""
    going, chosen = left.going(whole=whole), {c: row for c, row in sorted(rows.items()) if row}
    chains = [left.chain(c, tuple(seconds for _, seconds in row), 0) for c, row in chosen.items()]
    starts = [(left.now,)] * len(going) + [tuple(start for start, _ in row) for row in chosen.values()]
    return not violations(left.problem([*going, *chains]), Plan(tuple(starts), (), 0))


def _fitting(left: Left, rows: Rows, *, whole: bool) -> dict[int, Row]:
    """Run by run, each if those before it leave it room."""
    going = left.going(whole=whole)
    runs = sorted(_each(rows), key=lambda run: (left.ranks[run[0]], run[1], run[0]))
    net = Network(left.problem([*going, *(_alone(left, c, start, seconds) for c, start, seconds in runs)]))
    room, kept = OneByOne(net, [], dict.fromkeys(range(len(going)), (left.now,))), dict[int, Row]()
    for number, (c, start, seconds) in enumerate(runs, len(going)):
        end = start + seconds
        is_open = any(first <= start and end <= last for first, last in net.calendar[number])
        if is_open and room.stopped_until(number, start, end) is None:
            room.place(number, start)
            kept[c] = tuple(sorted((*kept.get(c, ()), (start, seconds))))
    return kept


def _alone(left: Left, c: int, start: int, seconds: int) -> Chain:
    chain = left.chain(c, (seconds,), left.chains[c].release)
    return replace(chain, key=f"{chain.key}/{start}", begun=True)


def _each(rows: Rows) -> Iterator[tuple[int, int, int]]:
    return ((c, start, seconds) for c, row in rows.items() for start, seconds in row)
