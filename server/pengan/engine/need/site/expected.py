"""What a hydrozone is expected to need by the site's normals: no bill beside it, so that a phone works it out too."""

from __future__ import annotations

from datetime import date
from math import fsum

from ...document.document import Document
from ...document.tables import Hydrozone
from ..coefficients import coefficients_from
from .planting import curve_of


def expected_mm(document: Document, zone: Hydrozone, year: int, month: int, daily: float) -> float | None:
    """A month's depth at the roots by the normals, less its normal rain; None where no coefficient is known."""
    curve = curve_of(zone)
    if curve is None:
        return None
    shares = coefficients_from(curve, date(year, month, 1))
    need = fsum(next(shares) * daily for _ in range(_days_in(year, month)))
    return max(0.0, need - _normal_rain(document, month))


def _days_in(year: int, month: int) -> int:
    after = date(year + month // 12, month % 12 + 1, 1)
    return (after - date(year, month, 1)).days


def _normal_rain(document: Document, month: int) -> float:
    return next((one.rain_mm or 0.0 for one in document.normals.values() if one.month == month), 0.0)
