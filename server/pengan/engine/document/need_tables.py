"""The tables from which minutes are worked out: weather, normals, the soil's water, audits, droughts, prices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .fields import amount, choice, date_, ref, text, whole
from .record import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather(Record):
    """One day's weather at the site, as it was observed or as it is expected. What is missing stays empty."""

    table: ClassVar[str] = "weather"
    day: str = date_("The day, on the site's calendar.", required=True)
    kind: str = choice(
        "Whether it was observed or is a forecast; an observation takes a forecast's place.",
        "observed",
        "forecast",
        default="observed",
    )
    source: str = text("Who or what measured it.", most=80)
    high_degc: float | None = amount("The day's highest air temperature.", least=-90, most=70, unit="degc")
    low_degc: float | None = amount("The day's lowest air temperature.", least=-90, most=70, unit="degc")
    dew_degc: float | None = amount("The mean dew point.", least=-90, most=60, unit="degc")
    dampest_pct: float | None = amount("The highest relative humidity.", least=0, most=200, unit="pct")
    driest_pct: float | None = amount("The lowest relative humidity.", least=0, most=200, unit="pct")
    humidity_pct: float | None = amount("The mean relative humidity.", least=0, most=200, unit="pct")
    wind_mps: float | None = amount("The mean wind speed.", least=0, most=150, unit="mps")
    wind_height_m: float = amount(
        "How high above ground the wind is measured.", least=0.5, most=100, unit="m", default=2
    )
    solar_mj: float | None = amount("The day's solar radiation on a square metre.", least=0, most=100, unit="mj")
    sunshine_h: float | None = amount("Hours of bright sunshine.", least=0, most=48, unit="h")
    rain_mm: float | None = amount("The day's rain.", least=0, most=2000, unit="mm")
    et_mm: float | None = amount("Reference evapotranspiration worked out elsewhere.", least=0, most=50, unit="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Normal(Record):
    """A month's normal, for days on which nothing was observed."""

    table: ClassVar[str] = "normals"
    month: int = whole("The month, 1 to 12.", least=1, most=12, required=True)
    et_mm: float = amount("Mean reference evapotranspiration of a day.", least=0, most=30, unit="mm", required=True)
    rain_mm: float | None = amount("Mean rain of the month.", least=0, most=3000, unit="mm")
    source: str = text("Where the figures are from.", most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWater(Record):
    """How much water a hydrozone's soil lacks at the start of a day: from there on the balance is worked out."""

    table: ClassVar[str] = "soil_water"
    hydrozone: str = ref("hydrozones", "The hydrozone.", required=True)
    day: str = date_("The day at whose start it holds.", required=True)
    depletion_mm: float = amount("What is missing to field capacity.", least=0, most=2000, unit="mm", required=True)
    how: str = choice("How it is known.", "worked_out", "measured", "guessed", default="guessed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit(Record):
    """Catch cans set out over one station: when, and for how long the water ran."""

    table: ClassVar[str] = "audits"
    name: str = text("What people call it, as `S3 in May`.", required=True)
    station: str = ref("stations", "The station.", required=True)
    day: str = date_("The day it was done.", required=True)
    run_s: int = whole("How long the water ran.", least=1, most=12 * 3600, unit="s", required=True)
    caught_in: str = choice(
        "Whether catches are read as depths, or as millilitres of cans with a known opening.", "mm", "ml", default="mm"
    )
    opening_cm2: float | None = amount("The area of a can's opening.", least=1, most=10_000, unit="cm2")
    spacing_m: float | None = amount("The distance from can to can.", least=0.1, most=50, unit="m")
    notes: str = text("Wind, pressure, whatever matters.", most=4000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Can(Record):
    """One can of an audit: its place on the grid, and what it caught."""

    table: ClassVar[str] = "cans"
    audit: str = ref("audits", "The audit.", required=True)
    column: int = whole("Its place along the grid, from one corner.", least=0, most=99, required=True)
    row: int = whole("Its place across the grid, from the same corner.", least=0, most=99, required=True)
    catch: float | None = amount("What it caught; empty: not read.", least=0, most=100_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drought(Record):
    """In a drought: how much of its need a priority gets. A priority without a record gets everything."""

    table: ClassVar[str] = "droughts"
    starts: str = date_("The first night.", required=True)
    ends: str | None = date_("The last night; empty: until further notice.")
    priority: int = whole("The priority of hydrozones it speaks of.", least=1, most=9, required=True)
    share_pct: float = amount("The share of its need it gets.", least=0, most=100, unit="pct", required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tier(Record):
    """A step of the water's price: what each cubic metre costs up to so many a month."""

    table: ClassVar[str] = "tiers"
    up_to_l: float | None = amount("The step's upper end in a month; empty: without end.", least=1, most=1e12, unit="l")
    price: float = amount("What a cubic metre costs in this step.", least=0, most=1e6, required=True)
