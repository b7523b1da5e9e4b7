"""One night's need of one hydrozone, from its balance to its stations' run times: what is asked every afternoon."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import chain, repeat, takewhile

from ..message import Message, saying, saying_plural
from .balance import Balance
from .coefficients import Curve, coefficients_from
from .days import NO_WATER, DaysIn, Inflow, Rain, day_in, in_columns
from .decide import Decision, Drought, Expected, Manner, decide
from .intake import Intake
from .ladder import ReferenceDay
from .minutes import RunTime, run_time
from .rates import Rate
from .soil import RootZone

CAUTION = saying(
    "need.caution", "These figures are planning aids. The water authority's rules and local law stand above them."
)
NO_GAUGE = saying_plural(
    "need.no_rain_reading",
    "{days_count} day has no reading of rain: {first_date}. It counts as dry.",
    "{days_count} days from {first_date} to {last_date} have no reading of rain. They count as dry.",
    count="days_count",
)


@dataclass(frozen=True, slots=True)
class Planting:
    """A hydrozone as the need is worked out for it.

    `rates` are its stations'; a station without a rate is not among them and keeps its run time set by hand.
    """

    hydrozone: str
    zone: RootZone
    curve: Curve
    manner: Manner
    intake: Intake | None
    rates: tuple[Rate, ...]
    rain_rule: str = "all"
    multiplier_rule: str = "half"
    drains_first: bool = False


@dataclass(frozen=True, slots=True)
class Need:
    """What a hydrozone needs on a night, and what that makes for each of its stations."""

    decision: Decision
    runs: tuple[RunTime, ...]

    @property
    def messages(self) -> tuple[Message, ...]:
        """Everything there is to say about it."""
        return (self.decision.message, *(said for run in self.runs for said in run.messages))


@dataclass(frozen=True, slots=True)
class WeatherDays:
    """A site's days from `first` on: reference, and rain split by one rule. Plantings that go by it share them."""

    first: date
    reference: tuple[float, ...]
    rain: Rain

    def part(self, start: int, stop: int) -> WeatherDays:
        """Some of the days, by their places."""
        span = slice(start, stop)
        return WeatherDays(self.first + timedelta(days=start), self.reference[span], self.rain.part(span))


def weather_days(
    references: Sequence[ReferenceDay], rain_mm: Mapping[date, float | None], rule: str
) -> tuple[WeatherDays, tuple[Message, ...]]:
    """A site's days up to the first whose reference nobody knows (rung `none`), and what to say of missing rain.

    `references` are dates one after another, at least one.
    """
    known = list(takewhile(lambda day: day.et_mm is not None, references))
    unread = [day.day.isoformat() for day in known if rain_mm.get(day.day) is None]
    days = in_columns(day_in(0.0, day.et_mm or 0.0, rain_mm.get(day.day) or 0.0, rule) for day in known)
    said = (NO_GAUGE(days_count=len(unread), first_date=unread[0], last_date=unread[-1]),) if unread else ()
    return WeatherDays(references[0].day, tuple(day.et_mm or 0.0 for day in known), days.rain), said


def days_in(planting: Planting, weather: WeatherDays, watering: Mapping[date, Inflow]) -> DaysIn:
    """A planting's days for its balance. Nights without watering may be left out of `watering`."""
    shares = coefficients_from(planting.curve, weather.first)
    demand = tuple(share * reference for share, reference in zip(shares, weather.reference, strict=False))
    given = [NO_WATER] * len(demand)
    for day, inflow in watering.items():
        place = (day - weather.first).days
        if 0 <= place < len(given):
            given[place] = inflow
    return DaysIn(demand, weather.rain, tuple(given))


def need_on(
    planting: Planting,
    kept: Balance,
    night: date,
    reference_ahead: Sequence[float],
    *,
    rain_ahead: Sequence[float] = (),
    window_s: int | None = None,
    drought: Drought | None = None,
    allowed: Callable[[date], bool] = lambda _night: True,
) -> Need:
    """The need of a night. `reference_ahead`, and `rain_ahead` where a forecast is trusted, follow the balance."""
    shares = coefficients_from(planting.curve, kept.after)
    expected = zip(shares, reference_ahead, chain(rain_ahead, repeat(0.0)), strict=False)
    ahead = [Expected(share * reference, rain) for share, reference, rain in expected]
    decision = decide(planting.hydrozone, kept, night, ahead, planting.manner, drought=drought, allowed=allowed)
    if decision.tonight_mm <= 0:
        return Need(decision, ())
    times = (
        run_time(decision.tonight_mm, rate, planting.intake, window_s, planting.multiplier_rule)
        for rate in planting.rates
    )
    return Need(decision, tuple(times))
