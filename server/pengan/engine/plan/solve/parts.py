"""A night in independent parts: chains that share no limit, station or order can't be in each other's way."""

from __future__ import annotations

from collections.abc import Iterator

from ..network import NO_LIMIT, Network


def independent(net: Network) -> list[list[int]]:
    """The chain numbers of each part, in order."""
    parent = list(range(len(net.chains)))

    def root(c: int) -> int:
        while parent[c] != c:
            parent[c] = parent[parent[c]]
            c = parent[c]
        return c

    for group in _bonds(net):
        for c in group[1:]:
            parent[root(c)] = root(group[0])
    parts: dict[int, list[int]] = {}
    for c in range(len(net.chains)):
        parts.setdefault(root(c), []).append(c)
    return list(parts.values())


def _bonds(net: Network) -> Iterator[list[int]]:
    """Groups of chains that may have to wait for each other."""
    for limit, group in enumerate(net.members):
        if net.room[limit] < NO_LIMIT and group:
            yield group
    by_station: dict[int, list[int]] = {}
    for c, chain in enumerate(net.chains):
        by_station.setdefault(chain.station, []).append(c)
    for station, mine in by_station.items():
        yield [*mine, *(c for other in sorted(net.problem.apart[station]) for c in by_station.get(other, []))]
    for c, follower in enumerate(net.follower):
        if follower is not None:
            yield [c, follower]
