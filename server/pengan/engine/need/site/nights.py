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

from ...document.document import Document
from ...document.need_tables import SoilWater
from ...document.tables import Station, Turn
from ...message import Message, saying
from ..balance import Balance, balance, extended
from ..cans import Wetting
from ..coefficients import coefficients_from
from ..days import NO_WATER, DayIn, Inflow
from ..decide import Drought
from ..minutes import RunTime
from ..tonight import Need, Planting, WeatherDays, need_on
from .by_hand import by_hand
from .due import Allowed, allowed
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


@dataclass(frozen=True, slots=True)
class ZoneNeed:
    """One hydrozone's night: the balance up to it, and the need; `kept` and `need` are None where much is missing.

    `by_hand`: not one of its turns goes by the need. Then the need is what its plants would be given.
    """

    hydrozone: str
    planting: Planting | None
    kept: Balance | None
    need: Need | None
    messages: tuple[Message, ...]
    by_hand: bool = False


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
    all_zones: bool = False,
) -> SiteNeeds:
    """The needs of every hydrozone that has a turn by need. Nothing to do, and nothing said, where there is none.

    `starts` are where balances begin for those who know better than the document's latest soil water; `only` leaves
    out all hydrozones but one. `all_zones` takes in those watered by hand alone, for people to look at: nights before
    brought them what their turns say, unless more is known. Only without it do `runs` and `dry` hold for a plan.
    """
    wanted = (turn for turn in document.turns.values() if all_zones or turn.mode == "need")
    turns = sorted(wanted, key=lambda one: one.id)
    if not turns:
        return SiteNeeds(night)
    stations = {turn.station: document.stations[turn.station] for turn in turns}
    homeless = tuple(
        NO_ZONE(station=turn.station) for turn in turns
        if turn.mode == "need" and stations[turn.station].hydrozone is None
    )  # fmt: skip
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

    `programs` are those with such turns, by station; `needy` are the stations with one by need; `allowed` answers for
    any set of programs.
    """

    document: Document
    night: date
    days: SiteDays | None
    programs: Mapping[str, frozenset[str]]
    needy: frozenset[str]
    wettings: Mapping[str, Wetting]
    allowed: Callable[[frozenset[str]], Allowed]
    drought: Callable[[date], Drought | None]
    waits: Callable[[Allowed, date], int]
    since: Callable[[date], WeatherDays]

    def zone(self, zone: str, stations: list[Station], start: Start, watered: Mapping[date, Inflow]) -> ZoneNeed:
        """One hydrozone's night."""
        read = planting_of(self.document, self.document.hydrozones[zone], stations, self.wettings)
        hand = self.needy.isdisjoint(station.id for station in stations)
        if read.planting is None:
            return ZoneNeed(zone, None, None, None, read.messages, hand)
        if self.days is None:
            return ZoneNeed(zone, read.planting, None, None, (*read.messages, NO_PLACE()), hand)
        theirs = self.allowed(frozenset().union(*(self.programs[station.id] for station in stations)))
        usual = by_hand(self.document, read.planting, stations) if hand else None
        walk = _Walk(read.planting, self.since(start.day), theirs, self.drought, self.waits, watered, usual)
        kept = walk.up_to(self.night, start)
        messages = (*read.messages, *start.doubts)
        return ZoneNeed(zone, read.planting, kept, walk.need(kept, self.night), messages, hand)


def _asked(document: Document, turns: list[Turn], night: date, days: SiteDays | None) -> _Asked:
    """Whatever hydrozones ask alike is worked out once: they are hundreds."""
    programs: dict[str, frozenset[str]] = {}
    for turn in turns:
        programs[turn.station] = programs.get(turn.station, frozenset()) | {turn.program}
    needy = frozenset(turn.station for turn in turns if turn.mode == "need")
    return _Asked(
        document, night, days, programs, needy, latest_wettings(document),
        allowed=cache(lambda theirs: allowed(document.programs[program] for program in sorted(theirs))),
        drought=cache(lambda day: drought_on(document, day)), waits=cache(_waits),
        since=cache(lambda day: days.since(day)) if days is not None else _no_days,
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


@dataclass(frozen=True, slots=True)
class _Walk:
    """Night after night of one hydrozone."""

    planting: Planting
    days: WeatherDays
    allowed: Allowed
    drought: Callable[[date], Drought | None]
    waits: Callable[[Allowed, date], int]
    watered: Mapping[date, Inflow]
    by_hand: Callable[[date], Inflow] | None

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
                kept, waiting, known = self._watered(kept, start, waiting, day)
            given = known or NO_WATER
        return self._longer(kept, start, waiting)

    def _watered(
        self, kept: Balance | None, start: Start, waiting: list[DayIn], night: date
    ) -> tuple[Balance | None, list[DayIn], Inflow]:
        """What a night brings of which nothing is told: what its run times say, or what the balance decides."""
        if self.by_hand is not None:
            return kept, waiting, self.by_hand(night)
        kept = self._longer(kept, start, waiting)
        return kept, [], inflow_of(self.tonight(kept, night))

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
