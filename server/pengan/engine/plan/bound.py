"""How early a night could possibly end, and which limit holds it there.

Three families of lower bound, each cheap: the longest chain alone; the water (or valves, or current) due at each
limit against the room it offers while anything may run there; and stations that exclude each other, in a row.
The second is sharpened three ways: the room is cut to the largest sum its members can really make; amounts are
seen through dual feasible functions (S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin
packing problems", Mathematical Programming 91, 2001), which know that two large ones never fit together; and what
must come before (heads) and after (tails) a set of cycles is added.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import accumulate
from math import gcd

from .network import NO_LIMIT, Network
from .problem import Chain, Problem, Span

COARSEST_SUMS = 200_000
"""Above so many units of room the reachable sums are not worked out."""
TOO_SMALL = 8
"""Where even the largest amount goes so many times into the room, dual feasible functions hardly sharpen anything."""


@dataclass(frozen=True, slots=True)
class Hold:
    """`at`: seconds of the night before which it cannot end if everything runs. `limit` and `index` name what decides:

    `flow` a supply; `open`, `current` a controller; `program_flow`, `program_open` a program; `chain` a chain;
    `apart` a station.
    """

    at: int
    limit: str
    index: int


@dataclass(frozen=True, slots=True)
class Part:
    """One cycle at one limit: what it takes, for how long, and what its chain must do before and after it."""

    amount: int
    duration: int
    head: int
    tail: int


def bound(problem: Problem) -> Hold:
    """The strongest of all bounds; the earlier-named limit where two are equal. No chains: 0, held by nothing."""
    net = Network(problem)
    holds = [*_by_chain(net), *_by_station(net), *_by_limit(net)]
    return max(holds, key=lambda hold: hold.at, default=Hold(0, "chain", 0))


def _by_chain(net: Network) -> Iterator[Hold]:
    for index, chain in enumerate(net.chains):
        yield Hold(alone(chain, net.calendar[index])[-1], "chain", index)


def alone(chain: Chain, spans: tuple[Span, ...]) -> list[int]:
    """The earliest ends of the chain's cycles if nothing else ran; those that no span can take end with the night."""
    ends, ready = [], chain.release
    for duration in chain.cycles:
        starts = (max(first, ready) for first, last in spans if max(first, ready) + duration <= last)
        ready = min(starts, default=ready) + duration
        ends.append(ready)
        ready += chain.soak
    return ends


def _by_station(net: Network) -> Iterator[Hold]:
    """Chains of one station, and of two stations kept apart, run one after the other."""
    by_station: dict[int, list[int]] = {}
    for index, chain in enumerate(net.chains):
        by_station.setdefault(chain.station, []).append(index)
    for station, mine in by_station.items():
        rows = [mine + by_station.get(other, []) for other in sorted(net.problem.apart[station])]
        for row in [mine, *rows]:
            if len(row) > 1:
                parts = [part for c in row for part in _parts(net, c, 1)]
                yield Hold(_earliest(parts, 1, _merged(net, row)), "apart", station)


def _by_limit(net: Network) -> Iterator[Hold]:
    for limit, (what, index) in enumerate(net.kind):
        if net.room[limit] == NO_LIMIT:
            continue
        group = net.members[limit]
        taken = [_taken(net, c, limit) for c in group]
        parts = [part for c, (amount, gap) in zip(group, taken, strict=True) for part in _parts(net, c, amount, gap)]
        # A place held through the gap after a run can be held beside the chain's next run: then nothing is sharpened.
        room = (
            net.room[limit]
            if any(gap for _, gap in taken)
            else _largest_sum((amount for amount, _ in taken), net.room[limit])
        )
        seen = _seen(parts, room, [amount for amount, _ in taken])
        spans = _merged(net, group, max(gap for _, gap in taken))
        yield Hold(max(_earliest(part, room, spans) for part, room in seen), what, index)


def _taken(net: Network, chain: int, limit: int) -> tuple[int, int]:
    """What a run of this chain takes of the limit, and the gap it keeps afterwards."""
    for need in net.needs[chain]:
        if need.limit == limit:
            return need.amount, need.gap
    return net.chains[chain].flow, 0


def _parts(net: Network, index: int, amount: int, gap: int = 0) -> Iterator[Part]:
    """The cycles of one chain. A gap lengthens a cycle; `tail` may then be negative, as the last gap need not fit."""
    chain = net.chains[index]
    ends = alone(chain, net.calendar[index])
    after = 0
    tails = []
    for duration in reversed(chain.cycles):
        tails.append(after)
        after += duration + chain.soak
    for duration, end, tail in zip(chain.cycles, ends, reversed(tails), strict=True):
        yield Part(amount, duration + gap, end - duration, tail - gap)


def _seen(parts: list[Part], room: int, amounts: list[int]) -> Iterator[tuple[list[Part], int]]:
    """The parts and the room as they are, and through dual feasible functions. `amounts`: one a chain."""
    yield parts, room
    if len(set(amounts)) == 1 or TOO_SMALL * max(amounts) <= room:
        return
    for small in [a for a in sorted(set(amounts)) if 2 * a <= room][-12:] + [room // 2]:
        yield [_round_off(part, small, room) for part in parts], room
    for k in range(1, 9):
        yield [_step(part, k, room) for part in parts], room * k


def _round_off(part: Part, small: int, room: int) -> Part:
    """Fekete and Schepers' U(ε): what leaves less than `small` free takes all, what is less than `small` nothing."""
    if part.amount > room - small:
        return Part(room, part.duration, part.head, part.tail)
    return part if part.amount >= small else Part(0, part.duration, part.head, part.tail)


def _step(part: Part, k: int, room: int) -> Part:
    """Fekete and Schepers' u(k), in units of 1/k of a room."""
    steps, rest = divmod((k + 1) * part.amount, room)
    amount = part.amount * k if rest == 0 else steps * room
    return Part(amount, part.duration, part.head, part.tail)


def _largest_sum(amounts: Iterable[int], room: int) -> int:
    """The largest sum up to `room` that some of the amounts can make; `room` itself where that is too fine to tell."""
    amounts = [a for a in amounts if 0 < a <= room]
    unit = gcd(*amounts) if amounts else 1
    units = room // unit
    if units > COARSEST_SUMS or not amounts:
        return room
    mask, reached = (1 << (units + 1)) - 1, 1
    for amount in amounts:
        reached |= reached << (amount // unit) & mask
    return (reached.bit_length() - 1) * unit


def _merged(net: Network, group: list[int], gap: int = 0) -> list[Span]:
    """When at least one of these chains, or the gap after it, may run: their calendars laid over each other."""
    merged: list[Span] = []
    for first, last in sorted({(first, last + gap) for c in group for first, last in net.calendar[c]}):
        if merged and first <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], last))
        else:
            merged.append((first, last))
    return merged


def _earliest(parts: list[Part], room: int, spans: list[Span]) -> int:
    """The larger of two bounds: sets of cycles with long heads, and sets with long tails."""
    parts = [part for part in parts if part.amount]
    if not parts or not spans:
        return 0
    first = min(part.head for part in parts)
    by_head = sorted(parts, key=lambda part: -part.head)
    by_tail = sorted(parts, key=lambda part: -part.tail)
    tails = accumulate((part.tail for part in by_head), min)
    heads = accumulate((part.head for part in by_tail), min)
    ends = [
        *_worked_off(by_head, [part.head for part in by_head], list(tails), room, spans),
        *_worked_off(by_tail, list(heads), [part.tail for part in by_tail], room, spans),
    ]
    return max(first, *ends)


def _worked_off(parts: list[Part], heads: list[int], tails: list[int], room: int, spans: list[Span]) -> Iterator[int]:
    """For each beginning of the list: from its head on, through open spans, its work at full room, then its tail."""
    work = 0
    for place, part in enumerate(parts):
        work += part.amount * part.duration
        last_of_kind = place + 1 == len(parts) or (heads[place], tails[place]) != (heads[place + 1], tails[place + 1])
        if last_of_kind:
            yield _after(heads[place], -(-work // room), spans) + tails[place]


def _after(start: int, seconds: int, spans: list[Span]) -> int:
    """The moment when so many open seconds have passed since `start`; beyond the last span time runs on."""
    now = start
    for first, last in spans:
        now = max(now, first)
        if last - now >= seconds:
            return now + seconds
        if last > now:
            seconds -= last - now
            now = last
    return now + seconds
