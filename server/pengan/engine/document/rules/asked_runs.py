"""A run asked for is a whole program, or one station for so long."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

NEITHER = saying("fault.asked_nothing", "This asks for nothing: name a program, or a station and how long it runs.")
BOTH = saying("fault.asked_two", "This asks for a program and for a station; one record asks for one of them.")
NO_TIME = saying("fault.asked_no_time", "A station asked for needs how long it runs.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Everything wrong with what is asked for."""
    for draft in drafts.of("asked"):
        program, station = draft.has("program"), draft.has("station")
        if not program and not station:
            yield draft.fault("program", NEITHER())
        elif program and station:
            yield draft.fault("station", BOTH())
        elif station and not draft.has("run_s"):
            yield draft.fault("run_s", NO_TIME())
