"""A site's document in memory: its records by table and id, in the order they stood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .need_tables import Audit, Can, Drought, Normal, SoilWater, Tier, Weather
from .tables import Apart, Asked, Closure, Controller, Hydrozone, Program, Site, Station, Supply, Turn, Window
from .work_tables import Repair


@dataclass(frozen=True, slots=True)
class Document:
    """A valid document. Each mapping goes from record id to record, in document order."""

    site: Site
    supplies: Mapping[str, Supply]
    controllers: Mapping[str, Controller]
    hydrozones: Mapping[str, Hydrozone]
    stations: Mapping[str, Station]
    programs: Mapping[str, Program]
    turns: Mapping[str, Turn]
    windows: Mapping[str, Window]
    closures: Mapping[str, Closure]
    apart: Mapping[str, Apart]
    asked: Mapping[str, Asked]
    weather: Mapping[str, Weather]
    normals: Mapping[str, Normal]
    soil_water: Mapping[str, SoilWater]
    audits: Mapping[str, Audit]
    cans: Mapping[str, Can]
    droughts: Mapping[str, Drought]
    tiers: Mapping[str, Tier]
    repairs: Mapping[str, Repair]
