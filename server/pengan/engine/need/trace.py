"""The work shown: every number from weather to minutes, with its unit, its inputs, its source and its rung.

A `Figure` is one number. Its `inputs` are keys of figures before it in the same trace, so that a page can draw the
way from weather to minutes, and a table (`as_rows`) can be saved as CSV. What a figure is called is a saying; its
source is a citation and is not translated.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta

from ..message import Message
from .balance import Balance
from .decide import Decision
from .figure_names import NAMES
from .filling import HOW_SOURCES
from .ladder import ReferenceDay
from .minutes import RunTime
from .soil import fraction_on, stress

Value = float | int | None
SEASON_COLUMNS = (
    "day", "demand_mm", "rain_mm", "effective_mm", "lost_mm", "rain_ran_off_mm", "applied_mm", "ran_off_mm",
    "uneven_mm", "taken_mm", "percolated_mm", "depletion_mm", "ready_mm", "total_mm",
)  # fmt: skip
CSV_COLUMNS = ("key", "value", "unit", "inputs", "source", "rung", "row")


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of the work. `unit` is the base unit, `1` for a plain ratio; `row` names the weather it came from."""

    key: str
    value: Value
    unit: str
    inputs: tuple[str, ...] = ()
    source: str = ""
    rung: str = ""
    row: str = ""

    @property
    def name(self) -> Message:
        """What the number is, as a saying."""
        return NAMES[self.key]()

    def as_row(self) -> tuple[str, ...]:
        """One line of the table, in the order of `CSV_COLUMNS`."""
        value = "" if self.value is None else repr(self.value)
        return self.key, value, self.unit, " ".join(self.inputs), self.source, self.rung, self.row


def reference_figures(reference: ReferenceDay, full_sky: bool = False) -> tuple[Figure, ...]:
    """A day's reference evapotranspiration and, where Penman-Monteith was worked out, all that led to it.

    `full_sky` is that of the station's field: it names the formula of the clear sky.
    """
    steps = tuple(_worked(reference, "ASCE-EWRI appendix D" if full_sky else "FAO-56 eq. 37"))
    inputs = ("slope", "gamma", "net", "ground", "wind", "saturation", "vapour") if steps else ()
    last = Figure(
        "reference", reference.et_mm, "mm", inputs, reference.source, reference.rung, reference.row
    )  # fmt: skip
    return (*steps, last)


def _worked(reference: ReferenceDay, sky: str) -> Iterator[Figure]:
    worked = reference.worked
    if worked is None:
        return
    row, how = reference.row, {name.partition("_")[0]: name for name in reference.hows}
    yield Figure("pressure", worked.pressure_kpa, "kpa", (), "FAO-56 eq. 7")
    yield Figure("gamma", worked.gamma_kpa, "kpa_per_c", ("pressure",), "FAO-56 eq. 8")
    yield Figure("slope", worked.slope_kpa, "kpa_per_c", (), "FAO-56 eq. 13", row=row)
    yield Figure("saturation", worked.saturation_kpa, "kpa", (), "FAO-56 eq. 12", row=row)
    yield Figure("vapour", worked.vapour_kpa, "kpa", (), *_how(how, "vapour"), row)
    yield Figure("wind", worked.wind_mps, "mps", (), *_how(how, "wind"), row)
    yield Figure("above", worked.above_mj, "mj_per_m2", (), "FAO-56 eq. 21")
    yield Figure("solar", worked.solar_mj, "mj_per_m2", ("above",), *_how(how, "solar"), row)
    yield Figure("clear", worked.clear_mj, "mj_per_m2", ("above",), sky)
    yield Figure("cloud_ratio", worked.cloud_ratio, "1", ("solar", "clear"), "ASCE-EWRI eq. 18")
    yield Figure("net_short", worked.net_short_mj, "mj_per_m2", ("solar",), "FAO-56 eq. 38")
    yield Figure("net_long", worked.net_long_mj, "mj_per_m2", ("vapour", "cloud_ratio"), "FAO-56 eq. 39", row=row)
    yield Figure("net", worked.net_mj, "mj_per_m2", ("net_short", "net_long"), "FAO-56 eq. 40")
    yield Figure("ground", worked.ground_mj, "mj_per_m2", (), "FAO-56 eq. 42")


def _how(how: dict[str, str], subject: str) -> tuple[str, str]:
    """Source and rung of an input: how it was come by."""
    name = how.get(subject, "")
    return HOW_SOURCES.get(name, ""), name


def balance_figures(kept: Balance, place: int, coefficient: float) -> tuple[Figure, ...]:
    """One day of a balance: `place` days after its first, at the coefficient its demand was worked out with."""
    day, out = kept.days[place], kept.outs[place]
    before = kept.outs[place - 1].depletion_mm if place else kept.start_mm
    wet = max(0.0, before - day.effective_mm - day.watering.useful_mm)
    fraction = fraction_on(kept.zone, day.demand_mm)
    return (
        Figure("coefficient", coefficient, "1", (), "FAO-56 eq. 58; Costello et al. 2000"),
        Figure("demand", day.demand_mm, "mm", ("reference", "coefficient"), "FAO-56 eq. 58"),
        Figure("total", kept.zone.total_mm, "mm", (), "FAO-56 eq. 82, table 19"),
        Figure("fraction", fraction, "1", ("demand",), "FAO-56 p. 162, table 22"),
        Figure("ready", fraction * kept.zone.total_mm, "mm", ("total", "fraction"), "FAO-56 eq. 83"),
        Figure("before", before, "mm"),
        Figure("rain", day.rain_mm, "mm"),
        Figure("effective", day.effective_mm, "mm", ("rain", "reference")),
        Figure("rain_lost", day.lost_mm, "mm", ("rain", "effective")),
        Figure("rain_ran_off", day.rain_ran_off_mm, "mm", ("rain", "effective")),
        Figure("applied", day.watering.applied_mm, "mm"),
        Figure("ran_off", day.watering.ran_off_mm, "mm", ("applied",)),
        Figure("uneven", day.watering.uneven_mm, "mm", ("applied", "ran_off")),
        Figure("stress", stress(kept.zone, wet, fraction), "1", ("before", "effective", "applied", "ready", "total"),
               "FAO-56 eq. 84"),
        Figure("taken", out.taken_mm, "mm", ("demand", "stress"), "FAO-56 eq. 81"),
        Figure("percolated", out.percolated_mm, "mm", ("before", "effective", "applied", "taken", "uneven"),
               "FAO-56 eq. 88"),
        Figure("depletion", out.depletion_mm, "mm", ("before", "effective", "applied", "taken", "percolated"),
               "FAO-56 eq. 85"),
    )  # fmt: skip


def run_figures(decision: Decision, run: RunTime) -> tuple[Figure, ...]:
    """From what the soil lacks to a station's seconds."""
    rate_source = "cans" if run.rate.origin == "audit" else "60 Q / A"
    return (
        Figure("lacking", decision.depletion_mm, "mm", ("depletion",), "FAO-56 eq. 85"),
        Figure("ready_ahead", decision.ready_mm, "mm", ("total",), "FAO-56 eq. 83"),
        Figure("share", decision.share_pct, "pct"),
        Figure("net_depth", decision.tonight_mm, "mm", ("lacking", "ready_ahead", "share"), "FAO-56 p. 171"),
        Figure("rate", run.rate.mm_h, "mm_per_h", (), rate_source, run.rate.origin),
        Figure("uniformity", run.rate.uniformity_lq, "1", (), "", run.rate.origin),
        Figure("multiplier", run.multiplier, "1", ("uniformity",), "Irrigation Association 2005 (from memory)"),
        Figure("gross_depth", run.gross_mm, "mm", ("net_depth", "multiplier")),
        Figure("run", run.wanted.run_s, "s", ("gross_depth", "rate")),
        Figure("cycles", run.wanted.cycles, "1", ("run", "rate"), "Irrigation Association 2005 (from memory)"),
        Figure("soak", run.wanted.soak_s, "s", ("run", "cycles", "rate")),
        Figure("fitting", run.fitting.run_s, "s", ("run", "cycles", "soak")),
    )  # fmt: skip


def as_rows(figures: Sequence[Figure]) -> tuple[tuple[str, ...], ...]:
    """The table of a trace, headings first."""
    return (CSV_COLUMNS, *(figure.as_row() for figure in figures))


def season_rows(kept: Balance) -> tuple[tuple[str, ...], ...]:
    """A balance as a table, a line a day, headings first: what a season's picture is drawn from. All in mm."""
    lines: list[tuple[str, ...]] = [SEASON_COLUMNS]
    for number, (day, out) in enumerate(zip(kept.days, kept.outs, strict=True)):
        given = day.watering
        depths = (
            day.demand_mm, day.rain_mm, day.effective_mm, day.lost_mm, day.rain_ran_off_mm, given.applied_mm,
            given.ran_off_mm, given.uneven_mm, out.taken_mm, out.percolated_mm, out.depletion_mm,
            fraction_on(kept.zone, day.demand_mm) * kept.zone.total_mm, kept.zone.total_mm,
        )  # fmt: skip
        lines.append(((kept.first + timedelta(days=number)).isoformat(), *map(repr, depths)))
    return tuple(lines)
