"""Flows learned from clean moments come near the true ones, and say what they rest on."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from builders import a_turn
from engine.journal.told import a_night, a_park, run_of
from pengan.engine.journal.learned import LEAST_NIGHTS, Learned, night_flows
from pengan.engine.journal.watch import Known, watch_night
from pengan.engine.plan.night import plan_night
from pengan.field.ground import Ground
from pengan.field.nature import Nature
from pengan.field.play import play
from pengan.field.troubles import Break

PARK = a_park()
SHEET = a_night(PARK)


def test_a_week_of_nights_teaches_the_true_flows() -> None:
    """The runs end one after another, so that each station is seen to go alone."""
    lengths = {"s1": 1200, "s2": 1500, "s3": 900, "s4": 1800}
    park = a_park(turns=[a_turn(station=id, run_s=run_s) for id, run_s in lengths.items()])
    nature, learned = Nature(off_pct=6), Learned()
    for day in range(7):
        sheet = plan_night(park, date(2026, 7, 1) + timedelta(day), effort=2)
        watch = watch_night(park, sheet, play(park, sheet, 4, nature=nature), known=Known(learned.flows()))
        learned = learned.with_night(sheet.night, night_flows(watch))
    true = Ground(park, SHEET, 4, (), nature).valves
    for station, valve in true.items():
        own = learned.own(station)
        assert own is not None
        assert own.nights == 7
        assert own.flow_lpm == pytest.approx(valve.flow_lpm, rel=0.015)


def test_stations_that_only_ever_run_together_share_what_they_take_as_the_document_has_it() -> None:
    flows = night_flows(watch_night(PARK, SHEET, play(PARK, SHEET, 4, nature=Nature(off_pct=6))))
    true = Ground(PARK, SHEET, 4, (), Nature(off_pct=6)).valves
    assert flows["s1"] + flows["s2"] == pytest.approx(true["s1"].flow_lpm + true["s2"].flow_lpm, rel=0.01)
    assert flows["s1"] / flows["s2"] == pytest.approx(60 / 40, rel=0.001)


def test_moments_with_something_noticed_teach_nothing() -> None:
    """The break adds half as much again to what its main shows; what comes after it is clean again."""
    run = run_of(SHEET, "s1")
    trouble = Break(at=SHEET.starts, station="s1", flow_lpm=30)
    watch = watch_night(PARK, SHEET, play(PARK, SHEET, 4, [trouble]), SHEET.ends)
    assert watch.findings()
    assert night_flows(watch).get("s1", run.flow_lpm) == pytest.approx(run.flow_lpm, rel=0.15)


def test_median_and_spread_do_not_mind_one_odd_night() -> None:
    learned = Learned()
    for day, flow in enumerate([60, 61, 59, 60, 300], 1):
        learned = learned.with_night(f"2026-07-{day:02}", {"s1": flow})
    own = learned.own("s1")
    assert own is not None
    assert (own.flow_lpm, own.nights) == (60, 5)
    assert own.spread_lpm == pytest.approx(1.483, abs=0.001)


def test_a_night_told_anew_takes_the_place_of_what_it_taught() -> None:
    learned = Learned().with_night("2026-07-01", {"s1": 50}).with_night("2026-07-01", {"s1": 60})
    assert learned.own("s1") == Learned().with_night("2026-07-01", {"s1": 60}).own("s1")


def test_few_nights_do_not_yet_stand_for_the_document() -> None:
    learned = Learned()
    for day in range(1, LEAST_NIGHTS):
        learned = learned.with_night(f"2026-07-{day:02}", {"s1": 60})
    assert learned.flows() == {}
    assert learned.with_night("2026-07-09", {"s1": 60}).flows() == {"s1": 60}


def test_nights_that_do_not_agree_do_not_stand_for_the_document_either() -> None:
    """As of a small station that is only ever seen to come and go beside much larger ones."""
    learned = Learned()
    for day, flow in enumerate([11.5, 13.6, 10.2, 11.5, 14.3, 11.6, 15.3], 1):
        learned = learned.with_night(f"2026-07-{day:02}", {"s1": flow, "s2": 60 + flow / 100})
    assert learned.flows().keys() == {"s2"}
