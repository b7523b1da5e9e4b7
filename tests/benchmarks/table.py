"""Prints a benchmark's table row by row, as the figures come in."""

from __future__ import annotations

from collections.abc import Sequence


class Table:
    """A title, column heads, and rows as wide as their heads ask for."""

    def __init__(self, title: str, heads: Sequence[str], first: int = 22) -> None:
        self.widths = [max(first, len(heads[0])), *(max(10, len(head)) for head in heads[1:])]
        print(f"## {title}")
        self.row(*heads)

    def row(self, *cells: str) -> None:
        first, *others = cells
        padded = [first.ljust(self.widths[0]), *(c.rjust(w) for c, w in zip(others, self.widths[1:], strict=False))]
        print("  ".join(padded), flush=True)


def note(text: str) -> None:
    print(f"   {text}", flush=True)


def percent(share: float) -> str:
    return f"{share * 100:.2f} %"


def seconds(time_s: float) -> str:
    return f"{time_s:.3f} s" if time_s < 1 else f"{time_s:.2f} s"
