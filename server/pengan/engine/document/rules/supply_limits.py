"""What a supply holds steady, or gives at least, lies within what it may give; only a source has a lead time."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

STEADY = saying("fault.steady_over_limit", "The steady flow {steady_lpm} is over the limit {limit_lpm}.")
LEAST = saying("fault.least_over_limit", "The least flow {least_lpm} is over the limit {limit_lpm}.")
LEAD = saying("fault.lead_of_main", "Only a source has a lead time; this main is fed by {supply}.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every supply whose figures contradict each other."""
    for draft in drafts.of("supplies"):
        limit, steady, least = (draft.number(field) for field in ("limit_lpm", "steady_lpm", "least_lpm"))
        if limit is not None and steady is not None and steady > limit:
            yield draft.fault("steady_lpm", STEADY(steady_lpm=steady, limit_lpm=limit))
        if limit is not None and least is not None and least > limit:
            yield draft.fault("least_lpm", LEAST(least_lpm=least, limit_lpm=limit))
        if draft.number("lead_s") and draft.has("fed_by"):
            yield draft.fault("lead_s", LEAD(supply=draft.text("fed_by") or None))
