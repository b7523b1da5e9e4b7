"""The work shown: every number of a night's run time can be followed back to the weather's rows."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from pengan.engine.message import SAYINGS
from pengan.engine.need.balance import balance
from pengan.engine.need.coefficients import Steady
from pengan.engine.need.days import Inflow
from pengan.engine.need.decide import Manner
from pengan.engine.need.figure_names import NAMES
from pengan.engine.need.intake import intake_of
from pengan.engine.need.ladder import ReferenceDay, Station, reference_days
from pengan.engine.need.penman import Field
from pengan.engine.need.rates import Rate
from pengan.engine.need.soil import RootZone
from pengan.engine.need.tonight import Planting, days_in, need_on, weather_days
from pengan.engine.need.trace import (
    CSV_COLUMNS,
    Figure,
    as_rows,
    balance_figures,
    reference_figures,
    run_figures,
    season_rows,
)  # fmt: skip
from pengan.engine.need.weather import DayWeather

FIRST = date(2026, 7, 1)
LAWN = Planting(
    "hz", RootZone(50, 0.4), Steady(0.8), Manner(), intake_of("clay_loam", 5), (Rate("st", 30, 0.7, "audit"),)
)


def week(missing: int | None = None) -> tuple[ReferenceDay, ...]:
    seen = {
        FIRST + timedelta(days=number): DayWeather(
            day=FIRST + timedelta(days=number), row=str(number + 2), high_c=30, low_c=18, dew_c=14, wind_mps=2.5,
            solar_mj=27, rain_mm=0,
        )
        for number in range(7)
        if number != missing
    }  # fmt: skip
    return reference_days(Station(Field(38.7, 100)), FIRST, FIRST + timedelta(days=6), seen)


def the_work() -> tuple[Figure, ...]:
    references = week()
    weather, messages = weather_days(references, dict.fromkeys((day.day for day in references), 0.0), LAWN.rain_rule)
    assert messages == ()
    days = days_in(LAWN, weather, {date(2026, 7, 3): Inflow(12, 1, 2)})
    kept = balance(LAWN.zone, FIRST, 10, days)
    need = need_on(LAWN, kept, FIRST + timedelta(days=6), [5.5] * 7)
    assert need.decision.tonight_mm > 0 and len(need.runs) == 1
    return (
        *reference_figures(references[6]), *balance_figures(kept, 6, 0.8), *run_figures(need.decision, need.runs[0]),
    )  # fmt: skip


def test_every_input_of_a_figure_comes_before_it() -> None:
    known: set[str] = set()
    for figure in the_work():
        assert set(figure.inputs) <= known, figure.key
        assert figure.key not in known
        known.add(figure.key)


def test_every_figure_has_a_name_a_unit_and_the_weather_its_row() -> None:
    work = the_work()
    assert {figure.key for figure in work} == set(NAMES)
    assert all(figure.unit and figure.name.code in SAYINGS for figure in work)
    weather = {figure.key: figure for figure in work}
    assert weather["reference"].row == "8" and weather["reference"].rung == "full"
    assert weather["vapour"].rung == "vapour_dew" and weather["vapour"].source == "FAO-56 eq. 14"


def test_the_figures_agree_with_each_other() -> None:
    work = {figure.key: figure.value or 0 for figure in the_work()}
    assert work["demand"] == pytest.approx(work["reference"] * work["coefficient"])
    assert work["ready"] == pytest.approx(work["total"] * work["fraction"])
    assert work["taken"] == pytest.approx(work["demand"] * work["stress"])
    assert work["gross_depth"] == pytest.approx(work["net_depth"] * work["multiplier"])
    assert work["run"] == pytest.approx(3600 * work["gross_depth"] / work["rate"], abs=1)
    assert work["net"] == pytest.approx(work["net_short"] - work["net_long"])


def test_the_table_has_a_line_a_figure() -> None:
    work = the_work()
    rows = as_rows(work)
    assert rows[0] == CSV_COLUMNS and len(rows) == len(work) + 1
    assert all(len(row) == len(CSV_COLUMNS) for row in rows)
    assert float({row[0]: row[1] for row in rows[1:]}["run"]) > 0


def test_a_season_is_a_table_that_adds_up() -> None:
    weather, _messages = weather_days(week(), {FIRST: 12.0}, "events")
    kept = balance(LAWN.zone, FIRST, 10, days_in(LAWN, weather, {date(2026, 7, 3): Inflow(12, 1, 2)}))
    head, *lines = season_rows(kept)
    table = [dict(zip(head, line, strict=True)) for line in lines]
    assert [line["day"] for line in table] == [f"2026-07-0{number}" for number in range(1, 8)]

    def total(name: str) -> float:
        return sum(float(line[name]) for line in table)

    came = total("rain_mm") + total("applied_mm")
    went = sum(map(total, ("taken_mm", "lost_mm", "percolated_mm", "ran_off_mm", "rain_ran_off_mm")))
    assert came - went == pytest.approx(10 - float(table[-1]["depletion_mm"]))


def test_watering_goes_to_its_own_day_and_days_outside_are_left_alone() -> None:
    weather, _messages = weather_days(week(), {}, "all")
    nights = {FIRST + timedelta(days=number): Inflow(number + 2.0) for number in (-1, 0, 6, 7)}
    assert [given.applied_mm for given in days_in(LAWN, weather, nights).watering] == [2.0, 0, 0, 0, 0, 0, 8.0]


def test_a_day_without_weather_ends_the_balance_there() -> None:
    weather, _messages = weather_days(week(missing=4), {}, "all")
    assert len(days_in(LAWN, weather, {})) == 4


def test_days_without_a_reading_of_rain_are_told() -> None:
    read: dict[date, float | None] = {FIRST: 3.0, FIRST + timedelta(days=1): None}
    weather, messages = weather_days(week(), read, "all")
    assert weather.rain.fallen == (3.0,) + (0.0,) * 6
    assert [(said.code, said.params["days_count"]) for said in messages] == [("need.no_rain_reading", 6)]


def test_a_lower_rung_shows_only_its_result() -> None:
    bare = reference_days(Station(Field(38.7, 100)), FIRST, FIRST, {FIRST: DayWeather(day=FIRST, high_c=30, low_c=18)})
    figures = reference_figures(bare[0])
    assert [(figure.key, figure.rung, figure.source) for figure in figures] == [
        ("reference", "temperature", "FAO-56 eq. 52")
    ]
