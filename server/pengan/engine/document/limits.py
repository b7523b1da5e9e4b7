"""A number beyond what its field allows: said with the limit, in the field's unit."""

from __future__ import annotations

from ..message import Message, saying
from .fields import Kind

_PLAIN = saying("fault.outside", "This must be between {least} and {most}, but it is {given}.")
_BY_UNIT = {
    "lpm": saying("fault.outside_lpm", "This must be between {least_lpm} and {most_lpm}, but it is {given}."),
    "s": saying("fault.outside_s", "This must be between {least_s} and {most_s}, but it is {given} seconds."),
    "ma": saying("fault.outside_ma", "This must be between {least_ma} and {most_ma}, but it is {given}."),
    "m2": saying("fault.outside_m2", "This must be between {least_m2} and {most_m2}, but it is {given}."),
    "kpa": saying("fault.outside_kpa", "This must be between {least_kpa} and {most_kpa}, but it is {given}."),
    "pct": saying("fault.outside_pct", "This must be between {least_pct} and {most_pct}, but it is {given}."),
}


def outside(kind: Kind, given: str) -> Message:
    """`given`, as it stands in the file in the base unit, is out of the kind's limits."""
    if kind.unit in _BY_UNIT:
        return _BY_UNIT[kind.unit](**{f"least_{kind.unit}": kind.least, f"most_{kind.unit}": kind.most}, given=given)
    return _PLAIN(least=kind.least, most=kind.most, given=given)
