"""What a station's uneven heads cost in water, a run and a year, beside heads that reach the evenness aimed for.

An uneven station has to run longer, so that its dry parts get enough (`rates.multiplier`); whatever it runs longer than
one at the aim is the cost. A year's is that of the need by the site's normals, as the budget expects it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from ...document.document import Document
from ...document.tables import Station, Turn
from ...message import Message, saying
from ..cans import Wetting
from ..normals import MONTHS
from ..rates import extra_litres, multiplier
from .expected import expected_mm
from .weather import normals_of

AIM_LQ = 0.75
"""Common practice, no source: what well-kept heads on a sound layout reach."""

NO_ZONE = saying("unevenness.no_hydrozone", "{station} belongs to no hydrozone, so what a year costs cannot be told.")
NO_NORMALS = saying(
    "unevenness.no_normals", "The site has no normals of the year, so what a year costs cannot be told."
)
NO_THIRST = saying(
    "unevenness.no_coefficient",
    "{hydrozone} does not say how thirsty its plants are, so what a year costs cannot be told.",
)
MONTHS_MISSING = saying(
    "unevenness.months_missing", "The site has normals of {months_count} months; the others count as nothing."
)
AREA_FROM_FLOW = saying(
    "unevenness.area_from_flow", "{station} has no area; {area_m2} follows from its flow and the rate of its cans."
)


@dataclass(frozen=True, slots=True)
class RunCost:
    """One run of a turn as its record has it: its litres, and those of them that unevenness takes."""

    turn: str
    run_l: float
    extra_l: float


@dataclass(frozen=True, slots=True)
class SeasonCost:
    """A year: the depth at the roots, the area, the litres that takes as even as it is, and those beyond the aim."""

    net_mm: float
    area_m2: float
    season_l: float
    extra_l: float


@dataclass(frozen=True, slots=True)
class Cost:
    """What unevenness costs. `share` is the part of all the station's water that heads at the aim would not take."""

    aim_lq: float
    aim_multiplier: float
    share: float
    runs: tuple[RunCost, ...]
    season: SeasonCost | None
    messages: tuple[Message, ...]


def unevenness(document: Document, wetting: Wetting, today: date, aim_lq: float = AIM_LQ) -> Cost:
    """The cost of an audit's unevenness. `today` says which year's days are counted."""
    aimed = multiplier(aim_lq)
    share = max(0.0, 1 - aimed / multiplier(wetting.uniformity_lq))
    station = document.stations.get(wetting.station)
    if station is None:
        return Cost(aim_lq, aimed, share, (), None, ())
    turns = sorted((turn for turn in document.turns.values() if turn.station == station.id), key=lambda one: one.id)
    runs = tuple(_run(station, turn, share) for turn in turns if turn.mode == "hand")
    season, messages = _season(document, station, wetting, today.year, aim_lq)
    return Cost(aim_lq, aimed, share, runs, season, messages)


def _run(station: Station, turn: Turn, share: float) -> RunCost:
    litres = station.flow_lpm * turn.run_s / 60
    return RunCost(turn.id, litres, litres * share)


def _season(
    document: Document, station: Station, wetting: Wetting, year: int, aim_lq: float
) -> tuple[SeasonCost | None, tuple[Message, ...]]:
    normals = normals_of(document)
    if station.hydrozone is None:
        return None, (NO_ZONE(station=station.id),)
    if normals is None:
        return None, (NO_NORMALS(),)
    zone, net, known = document.hydrozones[station.hydrozone], 0.0, 0
    for month, daily in enumerate(normals.mm_per_day, 1):
        if daily is None:
            continue
        depth = expected_mm(document, zone, year, month, daily)
        if depth is None:
            return None, (NO_THIRST(hydrozone=zone.id),)
        net, known = net + depth, known + 1
    area, told = _area(station, wetting)
    if known < MONTHS:
        told = (*told, MONTHS_MISSING(months_count=known))
    taken = net * area * multiplier(wetting.uniformity_lq)
    return SeasonCost(net, area, taken, extra_litres(net, area, wetting.uniformity_lq, aim_lq)), told


def _area(station: Station, wetting: Wetting) -> tuple[float, tuple[Message, ...]]:
    """The station's area; without one, that over which its flow makes the rate of its cans (60 Q / rate)."""
    if station.area_m2 is not None:
        return station.area_m2, ()
    area = 60 * station.flow_lpm / wetting.rate_mm_h
    return area, (AREA_FROM_FLOW(station=station.id, area_m2=area),)
