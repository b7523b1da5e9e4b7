"""What each hydrozone needs on a night, from the last day on which its soil's water was known.

From that day on the balance is worked out over the weather; nights in between are taken to have been watered as they
were decided, unless the caller knows better. So a phone that has been out of signal for days still has an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cache
from math import fsum

from ...clock.days import holds
from ...document.document import Document
from ...document.need_tables import SoilWater
from ...document.tables import Program, Station, Turn
from ...message import Message, saying
from ..balance import Balance, balance, extended
from ..cans import Wetting
from ..coefficients import coefficients_from
from ..days import NO_WATER, DayIn, Inflow
from ..decide import Drought
from ..minutes import RunTime
from ..tonight import Need, Planting, WeatherDays, need_on
from .planting import drought_on, latest_wettings, planting_of
from .weather import SiteDays, first_known, site_days

AHEAD_DAYS = 15
"""How far ahead a night's decision looks: two weeks and the day after."""
SOON_DAYS = 7
"""Most next nights come within a week; a night that is found so is the one that looking further would find."""
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
Allowed = Callable[[date], bool]


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


@dataclass(frozen=True, slots=True)
class Start:
    """From where a balance begins: the depletion at the start of a day, the water of the night before in it."""

    day: date
    depletion_mm: float
    doubts: tuple[Message, ...] = ()


def needs_on(
    document: Document,
    night: date,
    watered: Watered | None = None,
    *,
    starts: Mapping[str, Start] | None = None,
    only: str | None = None,
) -> SiteNeeds:
    """The needs of every hydrozone that has a turn by need. Nothing to do, and nothing said, where there is none.

    `starts` are where balances begin for those who know better than the document's latest soil water; `only` leaves
    out all hydrozones but one.
    """
    turns = sorted((turn for turn in document.turns.values() if turn.mode == "need"), key=lambda one: one.id)
    if not turns:
        return SiteNeeds(night)
    stations = {turn.station: document.stations[turn.station] for turn in turns}
    homeless = tuple(NO_ZONE(station=one.id) for one in stations.values() if one.hydrozone is None)
    by_zone = {zone: theirs for zone, theirs in _by_zone(stations).items() if only in (None, zone)}
    begins = {**starts_on(document, by_zone, night), **(starts or {})}
    earliest = min((begins[zone].day for zone in by_zone), default=night)
    asked = _asked(document, turns, night, site_days(document, earliest, night + timedelta(days=AHEAD_DAYS)))
    known = watered or {}
    zones = {zone: asked.zone(zone, theirs, begins[zone], known.get(zone, {})) for zone, theirs in by_zone.items()}
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
class _Asked:
    """What all hydrozones of a night have in common. `days` begin with the earliest start; None: nothing is known.

    `programs` are those with turns by need, by station; `allowed` answers for any set of programs.
    """

    document: Document
    night: date
    days: SiteDays | None
    programs: Mapping[str, frozenset[str]]
    wettings: Mapping[str, Wetting]
    allowed: Callable[[frozenset[str]], Allowed]
    drought: Callable[[date], Drought | None]
    waits: Callable[[Allowed, date], int]
    since: Callable[[date], WeatherDays]

    def zone(self, zone: str, stations: list[Station], start: Start, watered: Mapping[date, Inflow]) -> ZoneNeed:
        """One hydrozone's night."""
        read = planting_of(self.document, self.document.hydrozones[zone], stations, self.wettings)
        if read.planting is None:
            return ZoneNeed(zone, None, None, None, read.messages)
        if self.days is None:
            return ZoneNeed(zone, read.planting, None, None, (*read.messages, NO_PLACE()))
        allowed = self.allowed(frozenset().union(*(self.programs[station.id] for station in stations)))
        walk = _Walk(read.planting, self.since(start.day), allowed, self.drought, self.waits, watered)
        kept = walk.up_to(self.night, start)
        return ZoneNeed(zone, read.planting, kept, walk.need(kept, self.night), (*read.messages, *start.doubts))


def _asked(document: Document, turns: list[Turn], night: date, days: SiteDays | None) -> _Asked:
    """Whatever hydrozones ask alike is worked out once: they are hundreds."""
    programs: dict[str, frozenset[str]] = {}
    for turn in turns:
        programs[turn.station] = programs.get(turn.station, frozenset()) | {turn.program}
    return _Asked(
        document, night, days, programs, latest_wettings(document),
        cache(lambda theirs: _allowed(document, theirs)), cache(lambda day: drought_on(document, day)), cache(_waits),
        cache(lambda day: days.since(day)) if days is not None else _no_days,
    )  # fmt: skip


def _no_days(day: date) -> WeatherDays:
    raise LookupError(day)


def _waits(allowed: Allowed, night: date) -> int:
    """How many nights it is to the next allowed one."""
    nights = (night + timedelta(days=number) for number in range(1, AHEAD_DAYS))
    return next((number for number, later in enumerate(nights, 1) if allowed(later)), AHEAD_DAYS)


def starts_on(document: Document, zones: Iterable[str], night: date) -> dict[str, Start]:
    """Where each hydrozone's balance begins: at the latest known of its soil, else full at the first weather."""
    latest: dict[str, SoilWater] = {}
    for one in document.soil_water.values():
        before = latest.get(one.hydrozone)
        if one.day <= night.isoformat() and (before is None or (one.day, one.id) > (before.day, before.id)):
            latest[one.hydrozone] = one
    return {zone: _start(document, zone, night, latest.get(zone)) for zone in zones}


def _start(document: Document, zone: str, night: date, known: SoilWater | None) -> Start:
    if known is not None:
        return Start(date.fromisoformat(known.day), known.depletion_mm)
    first = first_known(document, night, UNTOLD_START_DAYS)
    return Start(first, 0.0, (NO_START(hydrozone=zone, day_date=first.isoformat()),))


def _allowed(document: Document, programs: frozenset[str]) -> Allowed:
    """Whether one of the programs that water the hydrozone starts in a night."""
    theirs = [(program, _starts_after(program)) for program in (document.programs[id] for id in sorted(programs))]
    return cache(lambda night: any(holds(program, night + timedelta(days=after)) for program, after in theirs))


def _starts_after(program: Program) -> int:
    """Days from the night's date to the date of the program's start: a start before noon is on the next day."""
    start = program.start
    return int(start is not None and not start.startswith("sunset") and (start.startswith("sunrise") or start < "12"))


@dataclass(frozen=True, slots=True)
class _Walk:
    """Night after night of one hydrozone."""

    planting: Planting
    days: WeatherDays
    allowed: Allowed
    drought: Callable[[date], Drought | None]
    waits: Callable[[Allowed, date], int]
    watered: Mapping[date, Inflow]

    def up_to(self, night: date, start: Start) -> Balance:
        """The balance of all days up to the night's own, each night before it watered as known or as decided.

        Days are added together as long as their waterings are known: only a decision needs the balance before it.
        """
        kept: Balance | None = None
        given, waiting = NO_WATER, list[DayIn]()
        shares = coefficients_from(self.planting.curve, start.day)
        for place, reference in enumerate(self.days.reference[: (night - start.day).days + 1]):
            day = start.day + timedelta(days=place)
            waiting.append(self._day(place, next(shares) * reference, given))
            known = self.watered.get(day)
            if known is None and day < night:
                kept, waiting = self._longer(kept, start, waiting), []
                known = inflow_of(self.tonight(kept, day))
            given = known or NO_WATER
        return self._longer(kept, start, waiting)

    def _longer(self, kept: Balance | None, start: Start, days: list[DayIn]) -> Balance:
        if kept is None:
            return balance(self.planting.zone, start.day, start.depletion_mm, days)
        return extended(kept, days)

    def need(self, kept: Balance, night: date) -> Need:
        """The night's need, and where it needs nothing, the next night that is expected to."""
        for most_days in (max(SOON_DAYS, self.waits(self.allowed, night) + 1), AHEAD_DAYS + 1):
            found = self._need(kept, night, most_days)
            if found.decision.tonight_mm > 0 or found.decision.next_night is not None:
                break
        return found

    def tonight(self, kept: Balance, night: date) -> Need:
        """What the night brings, and nothing of the nights after: it is enough to look to the next allowed one."""
        return self._need(kept, night, self.waits(self.allowed, night) + 1)

    def _need(self, kept: Balance, night: date, most_days: int) -> Need:
        first = (kept.after - self.days.first).days
        span = slice(first, first + most_days)
        return need_on(
            self.planting, kept, night, self.days.reference[span],
            rain_ahead=self.days.rain.effective[span], drought=self.drought(night), allowed=self.allowed,
        )  # fmt: skip

    def _day(self, place: int, demand: float, given: Inflow) -> DayIn:
        rain = self.days.rain
        return DayIn(
            demand, rain.fallen[place], rain.effective[place], rain.lost[place], rain.ran_off[place], given
        )  # fmt: skip


def inflow_of(need: Need) -> Inflow:
    """What a decided night brings if it runs as decided: the mean over the stations."""
    if not need.runs:
        return NO_WATER
    parts = [(run.gross_mm * _share(run), (run.gross_mm - run.net_mm) * _share(run)) for run in need.runs]
    count = len(parts)
    return Inflow(fsum(gross for gross, _ in parts) / count, 0.0, fsum(uneven for _, uneven in parts) / count)


def _share(run: RunTime) -> float:
    return run.fitting.run_s / run.wanted.run_s if run.wanted.run_s else 0.0
