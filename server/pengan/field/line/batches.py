"""What is told by now, in bundles that a server takes at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pengan.engine.journal.entry import Entry

from ..told import Told
from .pace import Pace

MOST = 500
"""Half of what a server takes in one message, so that long texts fit as well."""


def batches(tellings: Sequence[Told], pace: Pace, most: int = MOST) -> Iterator[list[Entry]]:
    """Bundles of entries in the order in which they are told, each as soon as it is time."""
    place = 0
    while place < len(tellings):
        pace.wait_until(tellings[place].at)
        now = pace.now()
        bundle = [told.entry for told in tellings[place : place + most] if told.at <= now]
        place += len(bundle)
        if bundle:
            yield bundle
