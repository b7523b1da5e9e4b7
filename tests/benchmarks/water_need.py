"""How long the water need takes: ten years of daily balance for 300 hydrozones, and one night for all of them.

The night is taken twice: from balances that are there, and from a site's document whose balances began the day before.
"""

from __future__ import annotations

from datetime import date, timedelta

from benchmarks.clockwork import timed
from builders import a_document, a_hydrozone, a_station, a_turn
from engine.need.generated_weather import FIELDS, year_at
from pengan.engine.document.document import Document
from pengan.engine.need.balance import Balance, balance, extended
from pengan.engine.need.coefficients import Stages, Steady
from pengan.engine.need.days import Inflow
from pengan.engine.need.decide import Manner
from pengan.engine.need.intake import intake_of
from pengan.engine.need.ladder import Station, reference_on
from pengan.engine.need.penman import ASCE_SHORT
from pengan.engine.need.rates import Rate
from pengan.engine.need.site.nights import needs_on
from pengan.engine.need.soil import RootZone
from pengan.engine.need.tonight import Need, Planting, WeatherDays, days_in, need_on, weather_days

FIRST = date(2016, 1, 1)
YEARS, HYDROZONES = 10, 300
DAYS = YEARS * 365
SEASON = 200
SITE_NIGHT = date(2026, 7, 10)
MOST_S, MOST_NIGHT_MS = 3.0, 50.0


def weather() -> WeatherDays:
    """Ten years of one station's days, each through the ladder, its rain split."""
    made = year_at(FIELDS["lisbon"])
    station = Station(FIELDS["lisbon"], ASCE_SHORT)
    references, rain = [], {}
    for number in range(DAYS):
        seen, day = made[number % 365].seen(), FIRST + timedelta(days=number)
        references.append(reference_on(station, day, seen))
        rain[day] = seen.rain_mm
    return weather_days(references, rain, "events")[0]


def planting(number: int) -> Planting:
    """One of the hydrozones, each with a soil, a curve and a station of its own."""
    stages = Stages((3 + number % 3, 1), 20, 30, 90 + number % 60, 30, 0.4, 0.9, 0.6, 0.3)
    return Planting(
        f"hz-{number}", RootZone(30.0 + number % 90, 0.4 + number % 4 / 20),
        Steady(0.5 + number % 5 / 10) if number % 2 else stages, Manner(), intake_of("clay_loam", number % 15),
        (Rate(f"st-{number}", 10.0 + number % 40, 0.55 + number % 30 / 100, "audit"),), rain_rule="events",
    )  # fmt: skip


def years(plantings: list[Planting], days: WeatherDays) -> list[Balance]:
    """Every hydrozone's ten years, watered every third night."""
    watering = {FIRST + timedelta(days=number): Inflow(9, 0.5, 1) for number in range(0, DAYS, 3)}
    return [balance(one.zone, FIRST, 10, days_in(one, days, watering)) for one in plantings]


def one_night(plantings: list[Planting], kept: list[Balance], today: WeatherDays) -> list[Need]:
    """Today's day added to every balance, and tonight's need of all."""
    needs = []
    for one, before in zip(plantings, kept, strict=True):
        until_now = extended(before, days_in(one, today, {}))
        needs.append(need_on(one, until_now, today.first, [5.5] * 8, window_s=6 * 3600))
    return needs


def site() -> Document:
    """A site of as many hydrozones, half of them watered by deficit; a season of weather; soil known yesterday."""
    yesterday = (SITE_NIGHT - timedelta(days=1)).isoformat()
    numbers = range(HYDROZONES)
    normals = [{"table": "normals", "id": f"n{month}", "month": month, "et_mm": 5} for month in range(1, 13)]
    days = [
        {"table": "weather", "id": f"d{back}", "day": (SITE_NIGHT - timedelta(days=back)).isoformat(),
         "high_degc": 30, "low_degc": 17, "rain_mm": 0}
        for back in range(SEASON)
    ]  # fmt: skip
    soil = [
        {"table": "soil_water", "id": f"w{n}", "hydrozone": f"h{n}", "day": yesterday, "depletion_mm": 10 + n % 20}
        for n in numbers
    ]
    return a_document(
        hydrozones=[
            a_hydrozone(f"h{n}", soil="loam", roots_m=0.3 + n % 5 / 10, species_factor=0.5 + n % 4 / 10,
                        watering="days" if n % 2 else "deficit")
            for n in numbers
        ],
        stations=[a_station(f"s{n}", hydrozone=f"h{n}", area_m2=200 + n) for n in numbers],
        turns=[a_turn("p1", f"s{n}", mode="need") for n in numbers],
        others=[*normals, *days, *soil],
    )  # fmt: skip


def show() -> None:
    """Prints both times beside what they may be; fails where one is over."""
    days, reading = timed(weather)
    print(f"{YEARS} years of one station through the ladder: {reading:.2f} s")
    plantings = [planting(number) for number in range(HYDROZONES)]
    kept, seconds = timed(lambda: years(plantings, days), tries=3)
    print(f"{YEARS} years of {HYDROZONES} hydrozones: {seconds:.2f} s (at most {MOST_S} s)")
    to_july = [balance(run.zone, FIRST, 10, run.days[:SEASON]) for run in kept]
    needs, night = timed(lambda: one_night(plantings, to_july, days.part(SEASON, SEASON + 1)), tries=5)
    watered = sum(need.decision.tonight_mm > 0 for need in needs)
    print(
        f"one night of {HYDROZONES} hydrozones, {watered} watered: {1000 * night:.1f} ms (at most {MOST_NIGHT_MS} ms)"
    )
    document = site()
    found, whole = timed(lambda: needs_on(document, SITE_NIGHT), tries=9)
    print(
        f"one night of a document with {HYDROZONES} hydrozones from the day before, {len(found.runs)} watered: "
        f"{1000 * whole:.1f} ms (at most {MOST_NIGHT_MS} ms)"
    )
    if seconds > MOST_S or 1000 * max(night, whole) > MOST_NIGHT_MS:
        raise SystemExit("too slow")
