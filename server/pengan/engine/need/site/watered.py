"""What a night's runs brought each hydrozone, and how its soil then goes into the next day."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from math import fsum
from typing import Protocol

from ...document.document import Document
from ...document.tables import Station
from ..cans import Wetting
from ..days import Inflow
from ..minutes import inflow, over_hydrozone
from ..rates import Rate
from .nights import Start, Watered, inflow_of, needs_on
from .planting import intake_for, latest_wettings, rates_of


class StationRun(Protocol):
    """A run of a night sheet: instants, and litres."""

    @property
    def station(self) -> str: ...
    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...
    @property
    def volume_l(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Brought:
    """One hydrozone's night: litres, and the depth; None where not one of its stations has a rate."""

    volume_l: float
    inflow: Inflow | None


def watered_by(document: Document, runs: Iterable[StationRun]) -> dict[str, Brought]:
    """What runs brought every hydrozone that has stations: nothing too is something that is known."""
    by_station: dict[str, list[StationRun]] = {}
    for run in sorted(runs, key=lambda one: (one.start, one.end)):
        by_station.setdefault(run.station, []).append(run)
    members: dict[str, list[Station]] = {}
    for station in sorted(document.stations.values(), key=lambda one: one.id):
        if station.hydrozone is not None:
            members.setdefault(station.hydrozone, []).append(station)
    wettings = latest_wettings(document)
    return {zone: _brought(document, zone, theirs, by_station, wettings) for zone, theirs in sorted(members.items())}


def _brought(
    document: Document,
    zone: str,
    stations: list[Station],
    runs: Mapping[str, list[StationRun]],
    wettings: Mapping[str, Wetting],
) -> Brought:
    litres = fsum(run.volume_l for station in stations for run in runs.get(station.id, ()))
    rates = rates_of(document, stations, wettings)
    rated = [(station, rate) for station in stations if (rate := rates[station.id][0]) is not None]
    return Brought(litres, _depth(document, zone, rated, runs) if rated else None)


def _depth(
    document: Document, zone: str, rated: list[tuple[Station, Rate]], runs: Mapping[str, list[StationRun]]
) -> Inflow:
    """The mean by area; where an area is not known, all count alike."""
    intake = intake_for(document.hydrozones[zone])
    by_area = all(station.area_m2 for station, _rate in rated)
    return over_hydrozone(
        [
            (
                inflow([(run.start, run.end) for run in runs.get(station.id, ())], rate, intake),
                (station.area_m2 or 0.0) if by_area else 1.0,
            )
            for station, rate in rated
        ]
    )


def told_starts(document: Document, night: date) -> dict[str, Start]:
    """The latest soil water that somebody measured or guessed, by hydrozone, up to a night."""
    told = [
        one
        for one in document.soil_water.values()
        if one.how != "worked_out" and one.day <= night.isoformat() and one.hydrozone in document.hydrozones
    ]
    ordered = sorted(told, key=lambda one: (one.day, one.id))
    return {one.hydrozone: Start(date.fromisoformat(one.day), one.depletion_mm) for one in ordered}


def mornings(
    document: Document, night: date, watered: Watered, starts: Mapping[str, Start]
) -> dict[str, dict[date, float]]:
    """What each hydrozone's soil lacks at the start of every day of its balance and of the day after the night.

    The water of the night before is in it; what would then stand above field capacity has drained (as in FAO-56,
    example 38). Left out are hydrozones for which no balance can be kept.
    """
    found: dict[str, dict[date, float]] = {}
    for zone, need in needs_on(document, night, watered, starts=starts).zones.items():
        if need.kept is None or need.need is None or need.kept.after <= night:
            continue
        kept, known = need.kept, watered.get(zone, {}).get(night)
        last = inflow_of(need.need) if known is None else known
        given = [one.useful_mm for one in (*kept.days.watering[1:], last)]
        lacking = zip(kept.outs.depletion, given, strict=True)
        found[zone] = {
            kept.first + timedelta(days=number): min(kept.zone.total_mm, max(0.0, lacks - came))
            for number, (lacks, came) in enumerate(lacking, 1)
        }
    return found


def carried_over(document: Document, night: date, watered: Watered, starts: Mapping[str, Start]) -> dict[str, float]:
    """The last of the `mornings`: that of the day after the night."""
    after = night + timedelta(days=1)
    return {zone: days[after] for zone, days in mornings(document, night, watered, starts).items()}
