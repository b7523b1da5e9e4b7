"""The tables of a site's document, one frozen dataclass a table. Field names carry their base unit.

A document is `{"format": 1, "records": [ {"table": "stations", "id": "…", …}, … ]}`. The same shape is
the file a person exports, the rows of the database, what the API serves and what a phone stores.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .fields import amount, choice, clock, date_, moment, month_day, record_id, ref, text, whole

FORMAT = 1

DAY_RULES = ("every_day", "weekdays", "every_n", "odd", "even", "dates", "asked")
LONGEST_RUN_S = 12 * 3600
LARGEST_FLOW_LPM = 60_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has."""

    table: ClassVar[str]
    id: str = record_id()


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRule(Record):
    """On which calendar dates something happens. A date must pass the rule and lie in the season, if there is one.

    `weekdays` is a list of `mon` … `sun` with commas; `dates` a list of `YYYY-MM-DD` with commas;
    a season from `11-01` to `02-28` runs over the turn of the year. `odd` and `even` are days of the month.
    """

    days: str = choice(*DAY_RULES, default="every_day")
    weekdays: str = text(most=27)
    every_n_days: int | None = whole(least=1, most=366)
    every_from: str | None = date_()
    dates: str = text(most=4000)
    season_from: str | None = month_day()
    season_to: str | None = month_day()


@dataclass(frozen=True, slots=True, kw_only=True)
class Site(Record):
    """Grounds under one clock and one team. A document has exactly one.

    The clock is `zone` (an IANA name), or `zone_rule` (a POSIX TZ string, RFC 9636 section 3.3.1), or
    `zone_changes` (dated changes: `+01:00, 2026-10-25T01:00Z +00:00, …`, the first being the offset before them all).
    """

    table: ClassVar[str] = "site"
    name: str = text(required=True)
    zone: str = text(most=64)
    zone_rule: str = text(most=200)
    zone_changes: str = text(most=4000)
    latitude_deg: float | None = amount(least=-90, most=90, unit="deg")
    longitude_deg: float | None = amount(least=-180, most=180, unit="deg")
    elevation_m: float | None = amount(least=-500, most=6000, unit="m")
    seasonal_pct: int = whole(least=0, most=300, unit="pct", default=100)
    aim: str = choice("earliest", "latest", default="earliest")
    finish_by: str | None = clock()
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply(Record):
    """A node water comes through: a source (nothing feeds it) or a main, fed by another supply."""

    table: ClassVar[str] = "supplies"
    name: str = text(required=True)
    fed_by: str | None = ref("supplies")
    water: str = choice("well", "pond", "town", "reclaimed", "rain", default="town")
    limit_lpm: float | None = amount(least=0.1, most=LARGEST_FLOW_LPM, unit="lpm")
    steady_lpm: float | None = amount(least=0, most=LARGEST_FLOW_LPM, unit="lpm")
    least_lpm: float | None = amount(least=0, most=LARGEST_FLOW_LPM, unit="lpm")
    lead_s: int = whole(least=0, most=4 * 3600, unit="s", default=0)
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Controller(Record):
    """A cabinet that powers valves. `valve_gap_s` is the rest between one valve closing and the next opening in its place."""

    table: ClassVar[str] = "controllers"
    name: str = text(required=True)
    max_open: int | None = whole(least=1, most=500)
    max_current_ma: int | None = whole(least=1, most=1_000_000, unit="ma")
    valve_gap_s: int = whole(least=0, most=600, unit="s", default=0)
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hydrozone(Record):
    """Plants with one water need; soil, slope, exposure."""

    table: ClassVar[str] = "hydrozones"
    name: str = text(required=True)
    planting: str = text(most=200)
    soil: str | None = choice("sand", "loamy_sand", "sandy_loam", "loam", "silt_loam", "clay_loam", "clay")
    slope_pct: float | None = amount(least=0, most=200, unit="pct")
    exposure: str | None = choice("open", "half_shade", "shade")
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Station(Record):
    """One valve and the heads it feeds. `number` is what the crew calls it; no two stations of a site share one."""

    table: ClassVar[str] = "stations"
    number: str = text(required=True, most=12)
    name: str = text(required=True)
    part: str = text(most=80)
    supply: str = ref("supplies", required=True)
    controller: str | None = ref("controllers")
    hydrozone: str | None = ref("hydrozones")
    flow_lpm: float = amount(least=0.1, most=LARGEST_FLOW_LPM, unit="lpm", required=True)
    current_ma: int | None = whole(least=0, most=100_000, unit="ma")
    area_m2: float | None = amount(least=0.1, most=1_000_000, unit="m2")
    pressure_kpa: float | None = amount(least=0, most=2000, unit="kpa")
    heads: str | None = choice("spray", "rotor", "drip", "bubbler", "micro")
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Program(DayRule):
    """Stations watered on the same days from the same start. With `days` = `asked` it runs only when somebody asks.

    Rank 1 is served first where not all fits. No `start` means from noon: as soon as a window opens.
    """

    table: ClassVar[str] = "programs"
    name: str = text(required=True)
    letter: str = text(most=2)
    start: str | None = clock()
    finish_by: str | None = clock()
    aim: str | None = choice("earliest", "latest")
    rank: int = whole(least=1, most=9, default=5)
    order: str = choice("free", "listed", default="free")
    limit_lpm: float | None = amount(least=0.1, most=LARGEST_FLOW_LPM, unit="lpm")
    max_open: int | None = whole(least=1, most=500)
    seasonal_pct: int = whole(least=0, most=300, unit="pct", default=100)
    notes: str = text(most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn(Record):
    """A station's share in a program. `run_s` is split into `cycles` equal parts with at least `soak_s` between them."""

    table: ClassVar[str] = "turns"
    program: str = ref("programs", required=True)
    station: str = ref("stations", required=True)
    position: int = whole(least=0, most=100_000, default=0)
    run_s: int = whole(least=1, most=LONGEST_RUN_S, unit="s", required=True)
    cycles: int = whole(least=1, most=48, default=1)
    soak_s: int = whole(least=0, most=24 * 3600, unit="s", default=0)
    rank: int | None = whole(least=1, most=9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope(DayRule):
    """What a window or a closure speaks of. Nothing set: the whole site. A supply means all that hangs on it."""

    supply: str | None = ref("supplies")
    controller: str | None = ref("controllers")
    hydrozone: str | None = ref("hydrozones")
    program: str | None = ref("programs")
    station: str | None = ref("stations")


@dataclass(frozen=True, slots=True, kw_only=True)
class Window(Scope):
    """Hours in which watering may happen. The day rule speaks of the date on which it opens.

    Windows with the same scope add up; windows with different scopes must all be open.
    `closes` at or before `opens` is on the next day.
    """

    table: ClassVar[str] = "windows"
    name: str = text(most=200)
    opens: str | None = clock()
    closes: str | None = clock()


@dataclass(frozen=True, slots=True, kw_only=True)
class Closure(Scope):
    """A span in which watering may not happen: once (`starts_on` to `ends_on`), or by day rule (`starts` to `ends`)."""

    table: ClassVar[str] = "closures"
    name: str = text(required=True)
    cause: str = choice("authority", "event", "mowing", "works", "tide", "other", default="other")
    starts: str | None = clock()
    ends: str | None = clock()
    starts_on: str | None = moment()
    ends_on: str | None = moment()


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart(Record):
    """Two stations that are never open together."""

    table: ClassVar[str] = "apart"
    station: str = ref("stations", required=True)
    other: str = ref("stations", required=True)
    reason: str = text(most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked(Record):
    """A run somebody asked for, one night only: a whole program, or one station for `run_s`.

    `at` empty means as soon as there is water.
    """

    table: ClassVar[str] = "asked"
    night: str | None = date_()
    program: str | None = ref("programs")
    station: str | None = ref("stations")
    run_s: int | None = whole(least=1, most=LONGEST_RUN_S, unit="s")
    at: str | None = clock()
    by: str = text(most=200)


TABLES: tuple[type[Record], ...] = (
    Site, Supply, Controller, Hydrozone, Station, Program, Turn, Window, Closure, Apart, Asked,
)  # fmt: skip
