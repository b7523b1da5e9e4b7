"""A station is kept apart from another, not from itself."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

ITSELF = saying("fault.apart_itself", "The station {station} cannot be kept apart from itself.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every pair that is one station."""
    for draft in drafts.of("apart"):
        if draft.text("station") and draft.text("station") == draft.text("other"):
            yield draft.fault("other", ITSELF(station=draft.text("station")))
