"""The nights whose sheets are kept, and how they are worked out."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
SITES, SHEETS = FIXTURES / "golden" / "sites", FIXTURES / "golden" / "sheets"
EFFORT = 8
"""Constructions a night: enough for every part of the search to have its turn, few enough for Pyodide in a test."""


class GoldenNight(NamedTuple):
    """A site's file and the date on which the night begins."""

    site: Path
    day: str

    @property
    def sheet(self) -> Path:
        return SHEETS / f"{self.site.parent.name if self.site.stem == 'site' else self.site.stem}-{self.day}.json"


DEMO = FIXTURES / "demo" / "site.json"
NIGHTS = (
    GoldenNight(DEMO, "2026-07-14"),
    GoldenNight(DEMO, "2026-10-24"),
    GoldenNight(DEMO, "2027-03-27"),
    GoldenNight(SITES / "half-hour-change.json", "2026-10-03"),
    GoldenNight(SITES / "half-hour-change.json", "2027-04-03"),
    GoldenNight(SITES / "own-rule.json", "2026-10-24"),
    GoldenNight(SITES / "too-much.json", "2026-08-14"),
    GoldenNight(SITES / "by-need.json", "2026-07-10"),
    GoldenNight(SITES / "by-need.json", "2026-07-19"),
)
"""An ordinary night of the demo site and both changes of Lisbon's clock; both half-hour changes of Lord Howe Island;
a site on a rule of its own that waters as late as it can; a night on which most does not fit; one whose minutes are
worked out from weather, soil and an audit; and one on which a drought rule gives a planting a share of its need."""
