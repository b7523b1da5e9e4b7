"""No two records of a table share an id."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

TWICE = saying("fault.id_twice", "Another record of this table has the id {id} already.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every record whose id an earlier one has."""
    seen: set[tuple[str, str]] = set()
    for draft in drafts.all:
        if (draft.table, draft.id) in seen:
            yield draft.fault("id", TWICE(id=draft.id))
        seen.add((draft.table, draft.id))
