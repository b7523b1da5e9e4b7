"""One night's need of one hydrozone, from its balance to its stations' run times: what is asked every afternoon."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from ..message import Message
from .balance import Balance, DayIn, Inflow, day_in
from .coefficients import Curve, coefficient_on
from .decide import Decision, Drought, Expected, Manner, decide
from .intake import Intake
from .ladder import ReferenceDay
from .minutes import RunTime, run_time
from .rates import Rate
from .soil import RootZone


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


def days_in(
    planting: Planting,
    references: Sequence[ReferenceDay],
    rain_mm: Callable[[date], float],
    watering: Callable[[date], Inflow],
) -> tuple[DayIn, ...]:
    """A planting's days for its balance, up to the first day whose reference nobody knows (rung `none`)."""
    days = []
    for reference in references:
        if reference.et_mm is None:
            break
        demand = coefficient_on(planting.curve, reference.day) * reference.et_mm
        rain, given = rain_mm(reference.day), watering(reference.day)
        days.append(day_in(demand, reference.et_mm, rain, planting.rain_rule, given))
    return tuple(days)


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
    ahead = [
        Expected(
            coefficient_on(planting.curve, kept.after + timedelta(days=number)) * reference,
            rain_ahead[number] if number < len(rain_ahead) else 0.0,
        )
        for number, reference in enumerate(reference_ahead)
    ]
    decision = decide(planting.hydrozone, kept, night, ahead, planting.manner, drought=drought, allowed=allowed)
    if decision.tonight_mm <= 0:
        return Need(decision, ())
    times = (
        run_time(decision.tonight_mm, rate, planting.intake, window_s, planting.multiplier_rule)
        for rate in planting.rates
    )
    return Need(decision, tuple(times))
