"""From millimetres to minutes: a station's run time, its cycles and soaks, and whether the night has room for them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from ..message import Message, saying
from .days import Inflow
from .intake import Cycles, Intake, most_within, ran_off_mm, split_run
from .rates import Rate, multiplier, run_minutes

RUNS_OFF = saying(
    "need.runs_off",
    "{station} cannot take {depth_mm} tonight without runoff: with its soaks that takes {needed_s}, and there are "
    "{window_s}. {fitting_s} of its {run_s} fit.",
)
LONG_TURN = saying(
    "need.long_turn", "{station}: {run_s} is beyond the longest run there is, {limit_s}. The rest has to wait."
)
LONGEST_S = 12 * 3600
MOST_CYCLES = 48


@dataclass(frozen=True, slots=True)
class RunTime:
    """One station's night: net and gross depth, the split run that fits, and what there is to say.

    `wanted` is the whole of it, `fitting` what fits the window without runoff.
    """

    station: str
    net_mm: float
    gross_mm: float
    rate: Rate
    multiplier: float
    wanted: Cycles
    fitting: Cycles
    messages: tuple[Message, ...] = ()


def run_time(
    net_mm: float, rate: Rate, intake: Intake | None, window_s: int | None = None, rule: str = "half"
) -> RunTime:
    """Run time for a net depth. Without an `intake` the run stays whole; without a window everything fits."""
    times = multiplier(rate.uniformity_lq, rule)
    asked_s = round(60 * run_minutes(max(0.0, net_mm), rate.mm_h, times))
    wanted = split_run(min(asked_s, LONGEST_S), rate.mm_h, intake)
    room = wanted if window_s is None else most_within(wanted, window_s)
    fitting = room if room.cycles <= MOST_CYCLES else _fewer(room)
    messages = [*rate.messages]
    if asked_s > LONGEST_S:
        messages.append(LONG_TURN(station=rate.station, run_s=asked_s, limit_s=LONGEST_S))
    if fitting.run_s < wanted.run_s:
        messages.append(_runs_off(rate.station, net_mm, wanted, fitting, window_s or wanted.elapsed_s))
    return RunTime(rate.station, net_mm, net_mm * times, rate, times, wanted, fitting, tuple(messages))


def _fewer(room: Cycles) -> Cycles:
    """A turn has no more than so many cycles; the rest does not fit."""
    return Cycles(MOST_CYCLES * room.longest_s, MOST_CYCLES, room.soak_s)


def _runs_off(station: str, net_mm: float, wanted: Cycles, fitting: Cycles, window_s: int) -> Message:
    return RUNS_OFF(
        station=station, depth_mm=net_mm, needed_s=wanted.elapsed_s, window_s=window_s, fitting_s=fitting.run_s,
        run_s=wanted.run_s,
    )  # fmt: skip


def inflow(spans: Sequence[tuple[float, float]], rate: Rate, intake: Intake | None, rule: str = "half") -> Inflow:
    """What a station's runs, as (start, end) seconds in order, brought: applied, run off, and unevenly given."""
    applied = rate.mm_h * fsum(end - start for start, end in spans) / 3600
    lost = min(applied, ran_off_mm(spans, rate.mm_h, intake)) if intake is not None else 0.0
    went_in = applied - lost
    return Inflow(applied, lost, went_in - went_in / multiplier(rate.uniformity_lq, rule))


def over_hydrozone(parts: Sequence[tuple[Inflow, float]]) -> Inflow:
    """The mean over a hydrozone of its stations' inflows, each with the area it waters (m²)."""
    area = fsum(part for _inflow, part in parts)
    if area <= 0:
        return Inflow()
    return Inflow(
        fsum(one.applied_mm * part for one, part in parts) / area,
        fsum(one.ran_off_mm * part for one, part in parts) / area,
        fsum(one.uneven_mm * part for one, part in parts) / area,
    )
