"""No two stations of a site share a number."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

TWICE = saying("fault.number_twice", "The station {station} has the number {number} already.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every station whose number an earlier one has. Case and outer blanks make no difference: people say numbers."""
    first: dict[str, str] = {}
    for draft in drafts.of("stations"):
        number = draft.text("number").strip().casefold()
        if not number:
            continue
        if number in first:
            yield draft.fault("number", TWICE(station=first[number], number=draft.text("number")))
        first.setdefault(number, draft.id)
