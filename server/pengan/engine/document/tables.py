"""The tables of a site's document, one frozen dataclass a table. Field names carry their base unit.

A document is `{"format": 1, "records": [ {"table": "stations", "id": "…", …}, … ]}`. The same shape is
the file a person exports, the rows of the database, what the API serves and what a phone stores.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .fields import amount, choice, clock, date_, moment, month_day, ref, text, whole
from .need_tables import Audit, Can, Drought, Normal, SoilWater, Tier, Weather
from .record import Record
from .work_tables import Repair

FORMAT = 1

DAY_RULES = ("every_day", "weekdays", "every_n", "odd", "even", "dates", "asked")
NEVER = "never"
"""Of what could be done by itself: it is left to people."""
LONGEST_RUN_S = 12 * 3600
LARGEST_FLOW_LPM = 60_000.0
PLANTINGS = (
    "turf_cool_season", "turf_warm_season", "rye_grass_hay", "bermuda_hay", "grazing_pasture", "palm_trees",
    "conifer_trees", "berries_bushes", "olives",
)  # fmt: skip
"""The kinds whose published starting values `need.plants` has; a test holds the two together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRule(Record):
    """On which calendar dates something happens. A date must pass the rule and lie in the season, if there is one.

    `weekdays` is a list of `mon` … `sun` with commas; `dates` a list of `YYYY-MM-DD` with commas;
    a season from `11-01` to `02-28` runs over the turn of the year. `odd` and `even` are days of the month.
    """

    days: str = choice("Which kind of day rule holds.", *DAY_RULES, default="every_day")
    weekdays: str = text("With `weekdays`: the days of the week, as `mon,wed,fri`.", most=40)
    every_n_days: int | None = whole("With `every_n`: how many days from one to the next.", least=1, most=366)
    every_from: str | None = date_("With `every_n`: the first date; the others follow from it.")
    dates: str = text("With `dates`: the dates, as `2026-11-25,2026-12-01`.", most=4000)
    season_from: str | None = month_day("First day of the season, as `MM-DD`. Needs `season_to`.")
    season_to: str | None = month_day(
        "Last day of the season, as `MM-DD`; before `season_from` it lies in the next year."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Site(Record):
    """Grounds under one clock and one team. A document has exactly one.

    The clock is `zone` (an IANA name), or `zone_rule` (a POSIX TZ string, RFC 9636 section 3.3.1), or
    `zone_changes` (dated changes: `+01:00, 2026-10-25T01:00Z +00:00, …`, the first being the offset before them all).
    """

    table: ClassVar[str] = "site"
    name: str = text("What people call the site.", required=True)
    zone: str = text("IANA name of the site's time zone, as `Europe/Lisbon`.", most=64)
    zone_rule: str = text("A clock of the site's own as a POSIX TZ string, as `WET0WEST,M3.5.0/1,M10.5.0`.", most=200)
    zone_changes: str = text("A clock of the site's own as dated changes.", most=4000)
    latitude_deg: float | None = amount(
        "Latitude, north positive. Sunrise and sunset need it.", least=-90, most=90, unit="deg"
    )
    longitude_deg: float | None = amount(
        "Longitude, east positive. Sunrise and sunset need it.", least=-180, most=180, unit="deg"
    )
    elevation_m: float | None = amount("Height above the sea.", least=-500, most=6000, unit="m")
    seasonal_pct: int = whole(
        "Every run time is multiplied by this; 100 leaves it as it is.", least=0, most=300, unit="pct", default=100
    )
    aim: str = choice(
        "Whether nights end as early as can be, or run as late as `finish_by` allows.",
        "earliest",
        "latest",
        default="earliest",
    )
    finish_by: str | None = clock("When the night's watering has to be over.")
    reference: str = choice(
        "By which published form the reference evapotranspiration is worked out.",
        "fao56",
        "asce_short",
        "asce_tall",
        default="fao56",
    )
    near_sea: str = choice(
        "Whether the sea tempers the days; it tells how sun is estimated from temperatures alone.",
        "inland",
        "coast",
        default="inland",
    )
    rain_counts: str = choice(
        "How a day's rain is counted: all of it, none below a fifth of the reference, or by the event.",
        "all",
        "not_small",
        "events",
        default="all",
    )
    catch_up_by_itself: str = choice(
        "What becomes, by itself, of the rest of a night once its interruptions are over.",
        NEVER,
        "keep",
        "recover",
        default=NEVER,
    )
    currency: str = text("The currency of the water bill, as `EUR`.", most=3)
    standing_charge: float | None = amount("What the water costs a month before any flows.", least=0, most=1e9)
    allowance_pct: float | None = amount(
        "The share of the reference that the landscape may use in a year, by the ordinance that holds here.",
        least=0,
        most=200,
        unit="pct",
    )
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply(Record):
    """A node water comes through: a source (nothing feeds it) or a main, fed by another supply."""

    table: ClassVar[str] = "supplies"
    name: str = text("What people call the supply.", required=True)
    fed_by: str | None = ref("supplies", "The supply that feeds this main. A source has none.")
    water: str = choice("What water it is.", "well", "pond", "town", "reclaimed", "rain", default="town")
    limit_lpm: float | None = amount(
        "The most it may give at once. None: no limit of its own.", least=0.1, most=LARGEST_FLOW_LPM, unit="lpm"
    )
    steady_lpm: float | None = amount(
        "The flow it is held near, to spare its pump.", least=0, most=LARGEST_FLOW_LPM, unit="lpm"
    )
    least_lpm: float | None = amount(
        "The least it may give while it gives any.", least=0, most=LARGEST_FLOW_LPM, unit="lpm"
    )
    lead_s: int = whole(
        "How long a source takes from being called until it gives water.", least=0, most=4 * 3600, unit="s", default=0
    )
    counter_l: float | None = amount(
        "Where its meter's counter begins again at 0. None: not known.", least=1000, most=1e12, unit="l"
    )
    watch_least_lpm: float | None = amount(
        "A smaller difference from what should flow is not told of. None: 2 L/min.",
        least=0.1,
        most=LARGEST_FLOW_LPM,
        unit="lpm",
    )
    watch_share_pct: int | None = whole(
        "Nor is one smaller than this share of what the open stations take. None: 5 %.", least=1, most=100, unit="pct"
    )
    watch_hold_s: int | None = whole(
        "How long a difference twice as large has to last until it is told of. None: 45 seconds.",
        least=10,
        most=3600,
        unit="s",
    )
    watch_silent_s: int | None = whole(
        "How long its meter may say nothing. None: five minutes.", least=60, most=86_400, unit="s"
    )
    shut_above_lpm: float | None = amount(
        "Above so much flow the server orders it shut by itself. None: never.",
        least=0.1,
        most=LARGEST_FLOW_LPM,
        unit="lpm",
    )
    shut_after_s: int = whole(
        "How long the flow has to stay above that first.", least=0, most=3600, unit="s", default=60
    )
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Controller(Record):
    """A cabinet that powers valves.

    `valve_gap_s` is the rest between one valve closing and the next opening in its place.
    """

    table: ClassVar[str] = "controllers"
    name: str = text("What people call the cabinet.", required=True)
    max_open: int | None = whole("How many of its valves may be open at once.", least=1, most=500)
    max_current_ma: int | None = whole(
        "The most current its valves may draw together.", least=1, most=1_000_000, unit="ma"
    )
    valve_gap_s: int = whole("How long a valve's place rests after it closes.", least=0, most=600, unit="s", default=0)
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hydrozone(Record):
    """Plants with one water need; soil, slope, exposure."""

    table: ClassVar[str] = "hydrozones"
    name: str = text("What people call the planting.", required=True)
    planting: str = text("What grows there.", most=200)
    soil: str | None = choice(
        "The soil's texture.", "sand", "loamy_sand", "sandy_loam", "loam", "silt_loam", "clay_loam", "clay"
    )
    slope_pct: float | None = amount("Rise over run, in percent.", least=0, most=200, unit="pct")
    exposure: str | None = choice("How much sun it gets.", "open", "half_shade", "shade")
    plant_kind: str | None = choice("The kind of planting, for published starting values.", *PLANTINGS)
    kc_initial: float | None = amount("Crop coefficient at the start of the season.", least=0, most=2)
    kc_middle: float | None = amount("Crop coefficient in mid-season, or of the whole year.", least=0, most=2)
    kc_end: float | None = amount("Crop coefficient at the end of the season.", least=0, most=2)
    kc_rest: float | None = amount("Crop coefficient outside the season.", least=0, most=2)
    grows_from: str | None = month_day("First day of the growing season, as `MM-DD`.")
    initial_days: int | None = whole("Length of the season's first stage, in days.", least=0, most=366, unit="days")
    growth_days: int | None = whole("Length of the stage of growth, in days.", least=0, most=366, unit="days")
    middle_days: int | None = whole("Length of mid-season, in days.", least=0, most=366, unit="days")
    late_days: int | None = whole("Length of the late season, in days.", least=0, most=366, unit="days")
    species_factor: float | None = amount("Landscape coefficient: how thirsty the species are.", least=0, most=2)
    density_factor: float | None = amount("Landscape coefficient: how dense the planting is.", least=0, most=2)
    microclimate_factor: float | None = amount("Landscape coefficient: how hot and windy it is.", least=0, most=2)
    roots_m: float | None = amount("How deep its roots go.", least=0.02, most=5, unit="m")
    depletion_pct: float | None = amount(
        "Share of the soil's water that plants take with ease.", least=5, most=95, unit="pct"
    )
    held_mm: float | None = amount(
        "Water that a metre of its soil gives to plants, where it is known.", least=10, most=400, unit="mm"
    )
    intake_mm: float | None = amount("Water that its soil takes in in an hour.", least=0.5, most=500, unit="mm")
    storage_mm: float | None = amount("Water that may stand on its surface.", least=0, most=50, unit="mm")
    watering: str = choice(
        "Whether it gets water when the soil asks for it, or on every night of its programs.",
        "deficit",
        "days",
        default="deficit",
    )
    trigger_pct: int = whole(
        "Share of the easily taken water that may be used before it is watered.",
        least=5,
        most=150,
        unit="pct",
        default=100,
    )
    leave_mm: float = amount("Room left in the soil for rain.", least=0, most=100, unit="mm", default=0)
    least_mm: float = amount(
        "A smaller depth is not worth opening a valve for.", least=0, most=50, unit="mm", default=0
    )
    most_mm: float | None = amount("The most it gets in a night.", least=0.5, most=200, unit="mm")
    priority: int = whole("In a drought, 1 is served best.", least=1, most=9, default=5)
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Station(Record):
    """One valve and the heads it feeds. `number` is what the crew calls it; no two stations of a site share one."""

    table: ClassVar[str] = "stations"
    number: str = text("What the crew calls it; no two stations of a site share one.", required=True, most=12)
    name: str = text("Where it is or what it waters.", required=True)
    part: str = text("The part of the grounds it lies in.", most=80)
    supply: str = ref("supplies", "The supply it hangs on.", required=True)
    controller: str | None = ref("controllers", "The cabinet that powers its valve.")
    hydrozone: str | None = ref("hydrozones", "The planting it waters.")
    flow_lpm: float = amount("The flow while it is open.", least=0.1, most=LARGEST_FLOW_LPM, unit="lpm", required=True)
    current_ma: int | None = whole("The current its valve draws while open.", least=0, most=100_000, unit="ma")
    area_m2: float | None = amount("The area it waters.", least=0.1, most=1_000_000, unit="m2")
    pressure_kpa: float | None = amount("The pressure its heads want.", least=0, most=2000, unit="kpa")
    heads: str | None = choice("What kind of heads it has.", "spray", "rotor", "drip", "bubbler", "micro")
    evenness_pct: float | None = amount(
        "Lower-quarter uniformity of its heads, where no audit tells it.", least=5, most=100, unit="pct"
    )
    latitude_deg: float | None = amount(
        "Latitude of its valve or its heads, north positive. Walks follow it.", least=-90, most=90, unit="deg"
    )
    longitude_deg: float | None = amount(
        "Longitude of its valve or its heads, east positive.", least=-180, most=180, unit="deg"
    )
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Program(DayRule):
    """Stations watered on the same days from the same start. With `days` = `asked` it runs only when somebody asks.

    Rank 1 is served first where not all fits. No `start` means from noon: as soon as a window opens.
    """

    table: ClassVar[str] = "programs"
    name: str = text("What people call the program.", required=True)
    letter: str = text("Its short name in lists, one or two characters.", most=2)
    start: str | None = clock("Nothing of it runs earlier. None: from noon, as soon as a window opens.")
    finish_by: str | None = clock("When it has to be over.")
    aim: str | None = choice("Its own aim, where it is not the site's.", "earliest", "latest")
    rank: int = whole("1 is served first where not all fits.", least=1, most=9, default=5)
    order: str = choice("Whether stations go in any order or in the listed one.", "free", "listed", default="free")
    limit_lpm: float | None = amount("The most it may draw at once.", least=0.1, most=LARGEST_FLOW_LPM, unit="lpm")
    max_open: int | None = whole("How many of its stations may be open at once.", least=1, most=500)
    seasonal_pct: int = whole(
        "Its run times are multiplied by this, besides the site's.", least=0, most=300, unit="pct", default=100
    )
    seasonal_least_pct: int = whole(
        "The least that a suggested seasonal percentage may be.", least=0, most=300, unit="pct", default=0
    )
    seasonal_most_pct: int = whole(
        "The most that a suggested seasonal percentage may be.", least=0, most=300, unit="pct", default=150
    )
    seasonal_by_itself_pct: int = whole(
        "Suggestions up to this much off are taken by themselves; 0: a person takes each.",
        least=0,
        most=300,
        unit="pct",
        default=0,
    )
    notes: str = text("Whatever the crew should know.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn(Record):
    """A station's share in a program.

    `run_s` is split into `cycles` equal parts with at least `soak_s` between them.
    """

    table: ClassVar[str] = "turns"
    program: str = ref("programs", "The program.", required=True)
    station: str = ref("stations", "The station.", required=True)
    position: int = whole("Its place in the program's list; the lowest comes first.", least=0, most=100_000, default=0)
    run_s: int = whole(
        "How long the station runs, all cycles together.", least=1, most=LONGEST_RUN_S, unit="s", required=True
    )
    cycles: int = whole("Into how many equal parts the time is split.", least=1, most=48, default=1)
    soak_s: int = whole("The least rest between two cycles.", least=0, most=24 * 3600, unit="s", default=0)
    rank: int | None = whole("Its own rank, where it is not the program's.", least=1, most=9)
    mode: str = choice(
        "Whether its run time is set by hand or worked out from the hydrozone's need.", "hand", "need", default="hand"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope(DayRule):
    """What a window or a closure speaks of. Nothing set: the whole site. A supply means all that hangs on it."""

    supply: str | None = ref("supplies", "Only what hangs on this supply.")
    controller: str | None = ref("controllers", "Only stations of this cabinet.")
    hydrozone: str | None = ref("hydrozones", "Only stations of this hydrozone.")
    program: str | None = ref("programs", "Only runs of this program.")
    station: str | None = ref("stations", "Only this station.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Window(Scope):
    """Hours in which watering may happen. The day rule speaks of the date on which it opens.

    Windows with the same scope add up; windows with different scopes must all be open.
    `closes` at or before `opens` is on the next day.
    """

    table: ClassVar[str] = "windows"
    name: str = text("What people call the window.", most=200)
    opens: str | None = clock("When it opens.")
    closes: str | None = clock("When it closes; at or before `opens` is on the next day.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Closure(Scope):
    """A span in which watering may not happen: once (`starts_on` to `ends_on`), or by day rule (`starts` to `ends`)."""

    table: ClassVar[str] = "closures"
    name: str = text("What people call the closure.", required=True)
    cause: str = choice(
        "Why water is closed.", "authority", "event", "mowing", "works", "tide", "other", default="other"
    )
    starts: str | None = clock("By day rule: when it starts.")
    ends: str | None = clock("By day rule: when it ends; at or before `starts` is on the next day.")
    starts_on: str | None = moment("Once: from this local date and time.")
    ends_on: str | None = moment("Once: up to this local date and time.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart(Record):
    """Two stations that are never open together."""

    table: ClassVar[str] = "apart"
    station: str = ref("stations", "The one station.", required=True)
    other: str = ref("stations", "The other station.", required=True)
    reason: str = text("Why they stay apart.", most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked(Record):
    """A run somebody asked for, one night only: a whole program, or one station for `run_s`.

    `at` empty means as soon as there is water.
    """

    table: ClassVar[str] = "asked"
    night: str = date_("The night it is for: the date on which that night begins at noon.", required=True)
    program: str | None = ref("programs", "The program asked for.")
    station: str | None = ref("stations", "The station asked for.")
    run_s: int | None = whole("How long the station runs.", least=1, most=LONGEST_RUN_S, unit="s")
    at: str | None = clock("When it should start. None: as soon as there is water.")
    by: str = text("Who asked.", most=200)


TABLES: tuple[type[Record], ...] = (
    Site, Supply, Controller, Hydrozone, Station, Program, Turn, Window, Closure, Apart, Asked,
    Weather, Normal, SoilWater, Audit, Can, Drought, Tier, Repair,
)  # fmt: skip
