"""A water window says when it opens and when it closes."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

NEEDS = saying("fault.window_needs", "A water window needs a time at which it opens and one at which it closes.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every end a window lacks."""
    for draft in drafts.of("windows"):
        for field in ("opens", "closes"):
            if not draft.has(field):
                yield draft.fault(field, NEEDS())
