"""Spans of seconds laid over one another: sorted, apart from each other, half-open."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from .problem import Span


def merged(spans: Iterable[Span]) -> list[Span]:
    """The seconds in any of the spans. Spans that touch become one, empty ones vanish."""
    out: list[Span] = []
    for start, end in sorted(spans):
        if start >= end:
            continue
        if out and start <= out[-1][1]:
            out[-1] = (out[-1][0], max(out[-1][1], end))
        else:
            out.append((start, end))
    return out


def common(some: Sequence[Span], others: Sequence[Span]) -> list[Span]:
    """The seconds in both."""
    out, i, j = list[Span](), 0, 0
    while i < len(some) and j < len(others):
        start, end = max(some[i][0], others[j][0]), min(some[i][1], others[j][1])
        if start < end:
            out.append((start, end))
        if some[i][1] < others[j][1]:
            i += 1
        else:
            j += 1
    return out


def without(spans: Sequence[Span], taken: Sequence[Span], length: int) -> list[Span]:
    """The seconds in `spans` and not in `taken`, all within 0 and `length`."""
    return common(spans, rest_of(taken, length))


def rest_of(spans: Sequence[Span], length: int) -> list[Span]:
    """The seconds from 0 to `length` that are in none of the spans."""
    edges = [0, *(edge for span in spans for edge in span), length]
    return [(start, end) for start, end in zip(edges[::2], edges[1::2], strict=True) if start < end]


def holding(spans: Sequence[Span], second: int) -> Span | None:
    """The span that the second lies in."""
    place = bisect_right(spans, second, key=_start) - 1
    return spans[place] if place >= 0 and second < spans[place][1] else None


def last_end(spans: Sequence[Span], second: int) -> int | None:
    """The latest end of a span at or before the second."""
    place = bisect_right(spans, second, key=_end) - 1
    return spans[place][1] if place >= 0 else None


def _start(span: Span) -> int:
    return span[0]


def _end(span: Span) -> int:
    return span[1]
