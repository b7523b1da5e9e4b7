"""What services' answers have in common: JSON with named units, instants in UTC, figures that may be missing."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from math import isfinite
from types import MappingProxyType

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.json_text import data_in

from ..readings import in_base
from .steps import Malformed

UNITS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "degc": {"celsius": "c", "°C": "c", "degC": "c", "fahrenheit": "f", "°F": "f"},
        "mps": {"m/s": "mps", "km/h": "kmh", "mph": "mph", "mp/h": "mph"},
        "mm": {"mm": "mm", "inch": "in", "in": "in"},
        "pct": {"%": "pct"},
        "mj": {"MJ/m²": "mj", "W/m²": "wm2"},
    }
)
"""By the end of a field's name: how services write units, and the unit meant."""


def json_in(body: bytes) -> object:
    """The JSON in a body. Raises `Malformed`."""
    try:
        return data_in(body)
    except DocumentFaults as faults:
        raise Malformed("no JSON") from faults


def part(data: object, *names: str) -> Mapping[str, object]:
    """The object that lies under these names. Raises `Malformed`."""
    for name in names:
        data = data.get(name) if isinstance(data, Mapping) else None
    if not isinstance(data, Mapping):
        raise Malformed(f"no {'.'.join(names) or 'object'}")
    return data


def items(data: Mapping[str, object], name: str) -> list[object]:
    """The list under a name. Raises `Malformed`."""
    found = data.get(name)
    if not isinstance(found, list):
        raise Malformed(f"no list {name}")
    return found


def instant(given: object) -> int:
    """The instant of an ISO 8601 time with its offset. Raises `Malformed`."""
    try:
        moment = datetime.fromisoformat(given) if isinstance(given, str) else None
    except ValueError as fault:
        raise Malformed("no instant") from fault
    if moment is None or moment.tzinfo is None or not 1970 < moment.year < 9999:
        raise Malformed("no instant")
    return int(moment.timestamp())


def figure(given: object, field: str, unit: object) -> float | None:
    """A figure in its field's base unit; None where it is missing or its unit is not known. Raises `Malformed`.

    Radiation in W/m² is the mean over an hour.
    """
    meant = UNITS[field.rpartition("_")[2]].get(unit) if isinstance(unit, str) else None
    if given is None or meant is None:
        return None
    if isinstance(given, bool) or not isinstance(given, int | float) or not isfinite(given):
        raise Malformed(f"{field} is no number")
    return in_base("hours", field, meant, given)


def known(told: Mapping[str, float | None]) -> dict[str, float]:
    """What was told."""
    return {name: value for name, value in told.items() if value is not None}
