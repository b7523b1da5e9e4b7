"""What each hydrozone needs on a night, in few figures: for what an edit does to the need."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from ..document.document import Document
from ..need.site.nights import ZoneNeed, needs_on


def needed(document: Document, given: Mapping[str, Any]) -> dict[str, object]:
    """Of every hydrozone with turns by need its depth on `night`, in mm, and the share of its need that this is."""
    night = date.fromisoformat(given["night"])
    found = needs_on(document, night)
    return {"night": night.isoformat(), "hydrozones": [_zone(zone) for zone in found.zones.values()]}


def _zone(zone: ZoneNeed) -> dict[str, object]:
    decision = zone.need.decision if zone.need else None
    return {
        "hydrozone": zone.hydrozone,
        "tonight_mm": decision and decision.tonight_mm,
        "share_pct": decision and decision.share_pct,
        "next_night": decision and decision.next_night and decision.next_night.isoformat(),
        "run_s": sum(run.wanted.run_s for run in zone.need.runs) if zone.need else 0,
    }
