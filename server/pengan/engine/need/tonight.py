"""One night's need of one hydrozone, from its balance to its stations' run times: what is asked every afternoon."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from ..message import Message, saying_plural
from .balance import NO_WATER, Balance, DayIn, Inflow
from .coefficients import Curve, coefficients_from
from .decide import Decision, Drought, Expected, Manner, decide
from .intake import Intake
from .ladder import ReferenceDay
from .minutes import RunTime, run_time
from .rain import split_rain
from .rates import Rate
from .soil import RootZone

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


class WeatherDay(NamedTuple):
    """A day's reference and its rain, split by one rule: the same for every planting of a site that goes by it."""

    day: date
    reference_mm: float
    rain_mm: float
    effective_mm: float
    lost_mm: float
    ran_off_mm: float


def weather_days(
    references: Sequence[ReferenceDay], rain_mm: Mapping[date, float | None], rule: str
) -> tuple[tuple[WeatherDay, ...], tuple[Message, ...]]:
    """A site's days up to the first whose reference nobody knows (rung `none`), and what to say of missing rain."""
    days, unread = [], []
    for reference in references:
        if reference.et_mm is None:
            break
        fell = rain_mm.get(reference.day)
        if fell is None:
            unread.append(reference.day.isoformat())
        split = split_rain(rule, fell or 0.0, reference.et_mm)
        days.append(
            WeatherDay(
                reference.day, reference.et_mm, fell or 0.0, split.effective_mm, split.lost_mm, split.ran_off_mm
            )
        )  # fmt: skip
    said = (NO_GAUGE(days_count=len(unread), first_date=unread[0], last_date=unread[-1]),) if unread else ()
    return tuple(days), said


def days_in(planting: Planting, weather: Sequence[WeatherDay], watering: Mapping[date, Inflow]) -> tuple[DayIn, ...]:
    """A planting's days for its balance. `weather` follows on without gaps; nights without watering may be left out."""
    if not weather:
        return ()
    given = watering.get
    shares = coefficients_from(planting.curve, weather[0].day)
    return tuple(
        DayIn(share * reference, rain, effective, lost, ran_off, given(day, NO_WATER))
        for share, (day, reference, rain, effective, lost, ran_off) in zip(shares, weather, strict=False)
    )


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
    ahead = [
        Expected(share * reference, rain_ahead[number] if number < len(rain_ahead) else 0.0)
        for number, (share, reference) in enumerate(zip(shares, reference_ahead, strict=False))
    ]
    decision = decide(planting.hydrozone, kept, night, ahead, planting.manner, drought=drought, allowed=allowed)
    if decision.tonight_mm <= 0:
        return Need(decision, ())
    times = (
        run_time(decision.tonight_mm, rate, planting.intake, window_s, planting.multiplier_rule)
        for rate in planting.rates
    )
    return Need(decision, tuple(times))
