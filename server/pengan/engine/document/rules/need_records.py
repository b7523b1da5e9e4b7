"""What the records behind the water need must keep: one of a kind for a day, a month, a place; seasons and steps whole.

Readings that are odd but possible (a minimum above the maximum) are no faults here: `need.quality` flags them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...message import Message, saying
from ..draft import Draft, Drafts
from ..fault import Fault

TWO_DAYS = saying("fault.weather_twice", "There is another record of this day's weather: {other}.")
TWO_MONTHS = saying("fault.normal_twice", "There is another normal of this month: {other}.")
TWO_STARTS = saying("fault.soil_water_twice", "There is another record of this hydrozone's soil on this day: {other}.")
TWO_CANS = saying("fault.can_twice", "There is another can of this audit in this place: {other}.")
NO_OPENING = saying("fault.audit_no_opening", "Catches in millilitres need the area of a can's opening.")
HALF_SEASON = saying(
    "fault.growth_without_stages", "A growing season needs its first day and the length of at least one of its stages."
)
TWO_TIERS = saying("fault.tier_twice", "There is another price step with this end: {other}.")
BACKWARDS = saying("fault.drought_backwards", "This ends ({ends}) before it starts ({starts}).")

ALONE: Mapping[str, tuple[tuple[str, ...], str]] = {
    "weather": (("day", "kind"), "day"),
    "normals": (("month",), "month"),
    "soil_water": (("hydrozone", "day"), "day"),
    "cans": (("audit", "column", "row"), "column"),
    "tiers": (("up_to_l",), "up_to_l"),
}
"""Table → the fields that no two records share, and the field a fault is about."""
_STAGES = ("initial_days", "growth_days", "middle_days", "late_days")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Everything wrong with these records."""
    for table in ALONE:
        yield from _twice(drafts, table)
    for draft in drafts.of("audits"):
        if draft.text("caught_in") == "ml" and not draft.has("opening_cm2"):
            yield draft.fault("opening_cm2", NO_OPENING())
    for draft in drafts.of("hydrozones"):
        if draft.has("grows_from") != any(draft.has(stage) for stage in _STAGES):
            yield draft.fault("grows_from", HALF_SEASON())
    for draft in drafts.of("droughts"):
        starts, ends = draft.text("starts"), draft.text("ends")
        if starts and ends and ends < starts:
            yield draft.fault("ends", BACKWARDS(starts=starts, ends=ends))


def _twice(drafts: Drafts, table: str) -> Iterator[Fault]:
    fields, about = ALONE[table]
    first: dict[tuple[object, ...], Draft] = {}
    for draft in drafts.of(table):
        key = tuple(draft.values.get(field) for field in fields)
        if all(value is None for value in key) and table != "tiers":
            continue
        earlier = first.setdefault(key, draft)
        if earlier is not draft:
            yield draft.fault(about, _said(table, earlier.id))


def _said(table: str, other: str) -> Message:
    sayings = {
        "weather": TWO_DAYS, "normals": TWO_MONTHS, "soil_water": TWO_STARTS, "cans": TWO_CANS, "tiers": TWO_TIERS,
    }  # fmt: skip
    return sayings[table](other=other)
