"""Which night is meant, and how hard a night ahead is looked at."""

from __future__ import annotations

from datetime import date

import click
import pytest

from pengan.engine.document.document import Document
from pengan.engine.plan.sheet import NightSheet
from pengan.terminal import planning
from pengan.terminal.planning import GLANCE, SECOND_LOOK, day_of, plan_ahead, site_of
from terminal.made_sheet import DOCUMENT, a_sheet, a_shortfall

DAY = date(2026, 11, 25)


@pytest.fixture
def efforts(monkeypatch: pytest.MonkeyPatch) -> list[tuple[date, int | None]]:
    """What the planner is asked for; on the first night a glance leaves something out."""
    asked: list[tuple[date, int | None]] = []

    def plan_night(_document: Document, day: date, *, effort: int | None = None) -> NightSheet:
        asked.append((day, effort))
        missing = day == DAY and effort == GLANCE
        return a_sheet(day, shortfalls=(a_shortfall(),) if missing else ())

    monkeypatch.setattr(planning, "plan_night", plan_night)
    return asked


def test_only_a_night_on_which_not_all_seems_to_fit_is_looked_at_twice(efforts: list[tuple[date, int | None]]) -> None:
    sheets = plan_ahead(site_of(DOCUMENT, f"{DAY}T12:30"), DAY, 2, None)
    assert efforts == [(DAY, GLANCE), (DAY, SECOND_LOOK), (date(2026, 11, 26), GLANCE)]
    assert [sheet.shortfalls for sheet in sheets] == [(), ()]


def test_an_effort_that_is_named_is_kept(efforts: list[tuple[date, int | None]]) -> None:
    plan_ahead(site_of(DOCUMENT, f"{DAY}T12:30"), DAY, 1, 3)
    assert efforts == [(DAY, 3)]


@pytest.mark.parametrize(
    ("now", "night"), [("2026-11-25T12:00", 25), ("2026-11-25T11:59", 24), ("2026-11-25T12:30+01:00", 24)]
)
def test_tonight_is_the_night_that_now_belongs_to(now: str, night: int) -> None:
    assert day_of(site_of(DOCUMENT, now), None) == date(2026, 11, night)


@pytest.mark.parametrize("typed", ["tonight", "2026-13-01", "1899-12-31"])
def test_a_date_that_is_no_night_ends_the_command(typed: str) -> None:
    with pytest.raises(click.ClickException):
        day_of(site_of(DOCUMENT, "2026-11-25T12:00"), typed)
