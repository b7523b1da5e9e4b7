"""A controller's limits have what they are reckoned from."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

NO_CURRENT = saying(
    "fault.no_current", "The controller {controller} limits its current, so this station needs its valve's current."
)
GAP = saying("fault.gap_without_places", "A rest between valves needs a limit on how many are open.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Stations without a current where it counts; rests between valves where no places are counted."""
    limited = {draft.id for draft in drafts.of("controllers") if draft.has("max_current_ma")}
    for draft in drafts.of("controllers"):
        if draft.number("valve_gap_s") and not draft.has("max_open"):
            yield draft.fault("valve_gap_s", GAP())
    for draft in drafts.of("stations"):
        if draft.text("controller") in limited and not draft.has("current_ma"):
            yield draft.fault("current_ma", NO_CURRENT(controller=draft.text("controller")))
