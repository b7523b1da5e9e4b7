"""What each hydrozone needs on a night, from the last day on which its soil's water was known.

From that day on the balance is worked out over the weather; nights in between are taken to have been watered as they
were decided, unless the caller knows better. So a phone that has been out of signal for days still has an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import fsum

from ...clock.days import holds
from ...document.document import Document
from ...document.tables import Program, Station, Turn
from ...message import Message, saying
from ..balance import Balance, balance, extended
from ..coefficients import coefficients_from
from ..days import NO_WATER, DayIn, Inflow
from ..minutes import RunTime
from ..tonight import Need, Planting, WeatherDays, need_on
from .planting import drought_on, planting_of
from .weather import SiteDays, first_known, site_days

AHEAD_DAYS = 15
"""How far ahead a night's decision looks: two weeks and the day after."""
UNTOLD_START_DAYS = 60
"""Without a known start the balance begins at the oldest weather of so many days, with the soil full."""

NO_START = saying(
    "need.no_start",
    "Nobody has said how much water the soil of {hydrozone} lacks; it is taken as full on {day_date}.",
)
NO_PLACE = saying(
    "need.no_place",
    "The site has neither a latitude nor normals, so no water need can be worked out. Run times stay as set by hand.",
)
NO_ZONE = saying(
    "need.no_hydrozone", "{station} is to run by need, but belongs to no hydrozone. It runs as set by hand."
)
Watered = Mapping[str, Mapping[date, Inflow]]
"""By hydrozone and night: what really came, where that is known."""


@dataclass(frozen=True, slots=True)
class ZoneNeed:
    """One hydrozone's night: the balance up to it, and the need; `kept` and `need` are None where much is missing."""

    hydrozone: str
    planting: Planting | None
    kept: Balance | None
    need: Need | None
    messages: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class SiteNeeds:
    """A night of the whole site. `runs` are by station; a station that is not in it runs as set by hand.

    `dry` are the stations that need nothing tonight. `messages` say why a run time stays as set by hand.
    """

    night: date
    zones: Mapping[str, ZoneNeed] = field(default_factory=dict)
    runs: Mapping[str, RunTime] = field(default_factory=dict)
    dry: frozenset[str] = frozenset()
    messages: tuple[Message, ...] = ()


def needs_on(document: Document, night: date, watered: Watered | None = None) -> SiteNeeds:
    """The needs of every hydrozone that has a turn by need. Nothing to do, and nothing said, where there is none."""
    turns = [turn for turn in document.turns.values() if turn.mode == "need"]
    if not turns:
        return SiteNeeds(night)
    stations = {turn.station: document.stations[turn.station] for turn in sorted(turns, key=lambda one: one.id)}
    homeless = tuple(NO_ZONE(station=one.id) for one in stations.values() if one.hydrozone is None)
    starts = {zone: _start(document, zone, night) for zone in _by_zone(stations)}
    earliest = min((start.day for start in starts.values()), default=night)
    days = site_days(document, earliest, night + timedelta(days=AHEAD_DAYS))
    asked = _Asked(document, turns, night, days)
    zones = {
        zone: asked.zone(zone, theirs, starts[zone], (watered or {}).get(zone, {}))
        for zone, theirs in _by_zone(stations).items()
    }
    return _gathered(night, zones, homeless)


def _by_zone(stations: Mapping[str, Station]) -> dict[str, list[Station]]:
    found: dict[str, list[Station]] = {}
    for station in stations.values():
        if station.hydrozone is not None:
            found.setdefault(station.hydrozone, []).append(station)
    return dict(sorted(found.items()))


def _gathered(night: date, zones: Mapping[str, ZoneNeed], told: tuple[Message, ...]) -> SiteNeeds:
    runs = {run.rate.station: run for zone in zones.values() if zone.need for run in zone.need.runs}
    rated = {rate.station for zone in zones.values() if zone.need and zone.planting for rate in zone.planting.rates}
    said: list[Message] = []
    for message in (*told, *(message for zone in zones.values() for message in zone.messages)):
        if message not in said:
            said.append(message)
    return SiteNeeds(night, zones, runs, frozenset(rated - runs.keys()), tuple(said))


@dataclass(frozen=True, slots=True)
class _Start:
    """From where a balance begins: the depletion at the start of a day."""

    day: date
    depletion_mm: float
    doubts: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class _Asked:
    """What all hydrozones of a night have in common. `days` begin with the earliest start; None: nothing is known."""

    document: Document
    turns: list[Turn]
    night: date
    days: SiteDays | None

    def zone(self, zone: str, stations: list[Station], start: _Start, watered: Mapping[date, Inflow]) -> ZoneNeed:
        """One hydrozone's night."""
        read = planting_of(self.document, self.document.hydrozones[zone], stations)
        if read.planting is None:
            return ZoneNeed(zone, None, None, None, read.messages)
        if self.days is None:
            return ZoneNeed(zone, read.planting, None, None, (*read.messages, NO_PLACE()))
        ids = {station.id for station in stations}
        allowed = _allowed(self.document, {turn.program for turn in self.turns if turn.station in ids})
        walk = _Walk(self.document, read.planting, self.days.since(start.day), allowed, watered)
        kept = walk.up_to(self.night, start)
        return ZoneNeed(zone, read.planting, kept, walk.need(kept, self.night), (*read.messages, *start.doubts))


def _start(document: Document, zone: str, night: date) -> _Start:
    known = [one for one in document.soil_water.values() if one.hydrozone == zone and one.day <= night.isoformat()]
    if known:
        last = max(known, key=lambda one: (one.day, one.id))
        return _Start(date.fromisoformat(last.day), last.depletion_mm)
    first = first_known(document, night, UNTOLD_START_DAYS)
    return _Start(first, 0.0, (NO_START(hydrozone=zone, day_date=first.isoformat()),))


def _allowed(document: Document, programs: set[str]) -> Callable[[date], bool]:
    """Whether one of the programs that water the hydrozone starts in a night."""
    theirs = [document.programs[program] for program in sorted(programs)]
    return lambda night: any(holds(program, night + timedelta(days=_starts_after(program))) for program in theirs)


def _starts_after(program: Program) -> int:
    """Days from the night's date to the date of the program's start: a start before noon is on the next day."""
    start = program.start
    return int(start is not None and not start.startswith("sunset") and (start.startswith("sunrise") or start < "12"))


@dataclass(frozen=True, slots=True)
class _Walk:
    """Night after night of one hydrozone."""

    document: Document
    planting: Planting
    days: WeatherDays
    allowed: Callable[[date], bool]
    watered: Mapping[date, Inflow]

    def up_to(self, night: date, start: _Start) -> Balance:
        """The balance of all days up to the night's own, each night before it watered as known or as decided."""
        kept, given = balance(self.planting.zone, start.day, start.depletion_mm, []), NO_WATER
        shares = coefficients_from(self.planting.curve, start.day)
        for place, reference in enumerate(self.days.reference[: (night - start.day).days + 1]):
            day = start.day + timedelta(days=place)
            kept = extended(kept, [self._day(place, next(shares) * reference, given)])
            known = self.watered.get(day)
            if day < night:
                given = inflow_of(self.need(kept, day)) if known is None else known
        return kept

    def need(self, kept: Balance, night: date) -> Need:
        """The night's need."""
        return need_on(
            self.planting, kept, night, self._ahead(kept.after),
            rain_ahead=self._rain_ahead(kept.after), drought=drought_on(self.document, night), allowed=self.allowed,
        )  # fmt: skip

    def _day(self, place: int, demand: float, given: Inflow) -> DayIn:
        rain = self.days.rain
        return DayIn(
            demand, rain.fallen[place], rain.effective[place], rain.lost[place], rain.ran_off[place], given
        )  # fmt: skip

    def _ahead(self, day: date) -> tuple[float, ...]:
        return self.days.reference[(day - self.days.first).days :]

    def _rain_ahead(self, day: date) -> tuple[float, ...]:
        return self.days.rain.effective[(day - self.days.first).days :]


def inflow_of(need: Need) -> Inflow:
    """What a decided night brings if it runs as decided: the mean over the stations."""
    if not need.runs:
        return NO_WATER
    parts = [(run.gross_mm * _share(run), (run.gross_mm - run.net_mm) * _share(run)) for run in need.runs]
    count = len(parts)
    return Inflow(fsum(gross for gross, _ in parts) / count, 0.0, fsum(uneven for _, uneven in parts) / count)


def _share(run: RunTime) -> float:
    return run.fitting.run_s / run.wanted.run_s if run.wanted.run_s else 0.0
