"""What the journal tells of a night goes into the soil's balance, and so into the next night's need."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from sqlalchemy import delete

from builders import a_controller
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.need.site.nights import needs_on
from pengan.web.need.models import NightWatering
from web.need.conftest import DAY_S, NIGHT, Noon, Row, a_need_site, an_entry, deficit, opened_for, soil_water

KEPT = ("volume_l", "applied_mm", "ran_off_mm", "uneven_mm", "depletion_mm")


def kept(noon: Noon, night: date = NIGHT) -> tuple[float | None, ...]:
    row: NightWatering = noon.nights()[night.isoformat()]
    return tuple(getattr(row, name) for name in KEPT)


def lacks(noon: Noon, night: date) -> float:
    """What the lawn's soil lacks on a night, by the document, as its need is decided."""
    need = needs_on(noon.found().document, night).zones["h1"].need
    assert need is not None
    return need.decision.depletion_mm


def after_a_night(noon: Noon, *told: Entry) -> None:
    """The lawn's night is over, told of as given."""
    noon.told(*told)
    noon.now += DAY_S
    noon.plan()


@pytest.fixture
def planned(noon: Noon) -> Noon:
    noon.put(deficit())
    noon.plan()
    return noon


@pytest.fixture
def by_sheet(planned: Noon) -> tuple[float | None, ...]:
    """What is written down of the night where there is no journal; the day begins anew after it."""
    at_first = planned.now
    planned.now += DAY_S
    planned.carry()
    found = kept(planned)
    planned.now = at_first
    with planned.database.session() as session, session.begin():
        session.execute(delete(NightWatering))
    planned.put(deficit())
    return found


def test_a_night_as_planned_is_what_its_sheet_had(by_sheet: tuple[float | None, ...], planned: Noon) -> None:
    planned.told(*opened_for(planned.sheet().runs))
    planned.now += DAY_S
    planned.carry()
    assert kept(planned) == by_sheet


@pytest.mark.parametrize("kind", [None, Kind.NOTE, Kind.FLOW, Kind.POWER_BACK])
def test_where_nothing_is_told_of_valves_it_is_the_sheets_to_the_last_digit(
    by_sheet: tuple[float | None, ...], planned: Noon, kind: Kind | None
) -> None:
    at = planned.runs()[0].start + 60
    fields: dict[Kind, Row] = {Kind.NOTE: {"text": "Warm"}, Kind.FLOW: {"supply": "town", "flow_lpm": 3}}
    planned.told(*([an_entry(kind, at, **fields.get(kind, {}))] if kind else []))
    planned.now += DAY_S
    planned.carry()
    assert kept(planned) == by_sheet


def test_half_a_night_leaves_half_of_it_to_be_given(planned: Noon) -> None:
    """Of 24 mm that the soil lacked half came: the other half is lacking the next morning."""
    after_a_night(planned, *opened_for(planned.sheet().runs, share=0.5))
    volume_l, applied_mm, ran_off_mm, uneven_mm, depletion_mm = kept(planned)
    assert applied_mm == pytest.approx(24 / 0.79 / 2, abs=0.02)
    assert volume_l == pytest.approx(sum(run.volume_l for run in planned.runs()) / 2, abs=1)
    assert depletion_mm == pytest.approx(12, abs=0.02)
    assert planned.soil()["worked.h1"] == ("2026-07-11", pytest.approx(12, abs=0.02), "worked_out")


def test_what_a_power_cut_took_is_needed_the_next_night(planned: Noon) -> None:
    """The site is dark from the middle of the lawn's water until morning: its sheet is believed until then alone."""
    runs = planned.runs()
    middle = (runs[0].start + runs[-1].end) // 2
    ran_s = sum(max(0, min(run.end, middle) - run.start) for run in runs)
    share = ran_s / sum(run.end - run.start for run in runs)
    after_a_night(planned, an_entry(Kind.POWER_LOST, middle), an_entry(Kind.POWER_BACK, runs[-1].end + 3600))
    assert 0 < share < 1
    assert kept(planned)[4] == pytest.approx(24 * (1 - share), abs=0.1)
    tonight = NIGHT + timedelta(days=1)
    assert lacks(planned, tonight) == pytest.approx(24 * (1 - share) + 4, abs=0.1)
    assert sum(run.volume_l for run in planned.runs(tonight)) > 0


def test_a_cut_that_began_days_before_counts_too(planned: Noon) -> None:
    after_a_night(planned, an_entry(Kind.POWER_LOST, planned.now - 3 * DAY_S))
    assert kept(planned)[:2] == (0, 0)
    assert kept(planned)[4] == pytest.approx(24)


def test_who_never_tells_of_valves_is_not_taken_to_have_kept_them_shut(noon: Noon) -> None:
    """Signs of life alone: the sheet counts. Once the controller has told of a valve, its silence means none opened."""
    data = a_need_site(soil_water(20))
    data["records"].append(a_controller("cab"))
    for record in data["records"]:
        if record["table"] == "stations":
            record["controller"] = "cab"
    noon.put(data)
    noon.plan()
    alive = [an_entry(Kind.ALIVE, run.start + 60, controller="cab") for run in noon.runs()]
    after_a_night(noon, *alive)
    assert kept(noon)[4] == pytest.approx(0, abs=0.01)
    tomorrow = NIGHT + timedelta(days=1)
    roses = [run for run in noon.sheet(tomorrow).runs if run.station == "s2"]
    alive = [an_entry(Kind.ALIVE, run.start + 60, controller="cab") for run in noon.runs(tomorrow)]
    after_a_night(noon, *alive, *opened_for(roses))
    assert kept(noon, tomorrow)[0] == 0


def test_what_is_told_late_is_taken_in_at_the_next_noon_and_no_later(planned: Noon) -> None:
    runs = planned.sheet().runs
    after_a_night(planned)
    assert kept(planned)[4] == pytest.approx(0, abs=0.01)
    planned.told(*opened_for(runs, share=0.5))
    assert not planned.carry()
    planned.now += DAY_S
    planned.plan()
    assert kept(planned)[4] == pytest.approx(12, abs=0.02)
    before = planned.soil()
    assert before["worked.h1"][0] == "2026-07-12"
    planned.told(an_entry(Kind.POWER_LOST, runs[0].start - 60))
    planned.now += DAY_S
    planned.plan()
    assert kept(planned)[4] == pytest.approx(12, abs=0.02)


def test_a_night_told_of_is_carried_over_once_and_the_same_again(planned: Noon) -> None:
    planned.told(*opened_for(planned.sheet().runs, share=0.5))
    planned.now += DAY_S
    assert planned.carry()
    before = (planned.soil(), len(planned.edits()), kept(planned))
    assert not planned.carry()
    assert (planned.soil(), len(planned.edits()), kept(planned)) == before
