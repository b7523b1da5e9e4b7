"""A number beyond what its field allows: said with the limit, in the field's unit."""

from __future__ import annotations

from ..message import Message, saying
from .fields import Kind

_PLAIN = saying("fault.outside", "This must be between {least} and {most}, but it is {given}.")
_BARE = saying("fault.outside_bare", "This must be between {least} and {most} (in “{unit}”), but it is {given}.")
_BY_UNIT = {
    "lpm": saying("fault.outside_lpm", "This must be between {least_lpm} and {most_lpm}, but it is {given_lpm}."),
    "s": saying("fault.outside_s", "This must be between {least_s} and {most_s}, but it is {given_s}."),
    "ma": saying("fault.outside_ma", "This must be between {least_ma} and {most_ma}, but it is {given_ma}."),
    "m2": saying("fault.outside_m2", "This must be between {least_m2} and {most_m2}, but it is {given_m2}."),
    "kpa": saying("fault.outside_kpa", "This must be between {least_kpa} and {most_kpa}, but it is {given_kpa}."),
    "pct": saying("fault.outside_pct", "This must be between {least_pct} and {most_pct}, but it is {given_pct}."),
}

_MOST_AS_QUANTITY = 10**9
"""Beyond it a number is shown as the file has it: no quantity of a site comes near."""


def outside(kind: Kind, given: float, shown: str) -> Message:
    """`given`, in the field's base unit, is out of the kind's limits; `shown` is how it stands in the file."""
    unit = kind.unit or ""
    if not unit:
        return _PLAIN(least=kind.least, most=kind.most, given=shown)
    if unit not in _BY_UNIT or abs(given) > _MOST_AS_QUANTITY:
        return _BARE(least=kind.least, most=kind.most, unit=unit, given=shown)
    return _BY_UNIT[unit](**{f"least_{unit}": kind.least, f"most_{unit}": kind.most, f"given_{unit}": given})
