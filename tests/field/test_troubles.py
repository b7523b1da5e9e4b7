"""Each trouble shows in the readings as physics has it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from field.grounds import EXACT, SEED, a_field, counts, flow_at, flows, played, run_of
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.night import plan_night
from pengan.field.play import play, tellings
from pengan.field.troubles import (
    Break,
    Clogged,
    DeadValve,
    Drift,
    Leak,
    PowerCut,
    ShutMain,
    Silence,
    Stop,
    StuckMeter,
    StuckOpen,
)

DOCUMENT, SHEET = a_field()
N1, N2, S1 = (run_of(SHEET, station) for station in ("n1", "n2", "s1"))
BEGIN = min(N1.start, N2.start)
MIDDLE = S1.start + 2700
DRY = SHEET.ends - 7200


def kinds(entries: list[Entry], kind: Kind, **fields: str | None) -> list[int]:
    """When something of a kind happened."""
    return [
        entry.at
        for entry in entries
        if entry.kind is kind and all(getattr(entry, name) == value for name, value in fields.items())
    ]


def test_a_broken_main_draws_more_and_takes_pressure_from_its_neighbours() -> None:
    whole, broken = played(), played(Break(supply="north", flow_lpm=40, at=MIDDLE, until=MIDDLE + 900))
    at = MIDDLE + 600
    more = flow_at(broken, "north", at) - flow_at(whole, "north", at)
    assert 30 < more < 40  # the station that is open gives less
    assert 0.85 < flow_at(broken, "south", at) / flow_at(whole, "south", at) < 0.995
    assert flow_at(broken, "well", at) == pytest.approx(
        flow_at(broken, "north", at) + flow_at(broken, "south", at), rel=0.01
    )
    assert flow_at(broken, "north", MIDDLE + 1000) == pytest.approx(flow_at(whole, "north", MIDDLE + 1000))


def test_a_larger_break_takes_more_pressure() -> None:
    left = [
        flow_at(played(Break(supply="north", flow_lpm=flow, at=MIDDLE)), "south", MIDDLE + 600) for flow in (10, 30, 90)
    ]
    assert left == sorted(left, reverse=True)


def test_a_break_below_a_valve_shows_only_while_it_is_open() -> None:
    broken = played(Break(station="s1", flow_lpm=20, at=SHEET.starts))
    assert flow_at(broken, "south", S1.end - 120) > 55
    assert flow_at(broken, "south", S1.end + 120) == 0


def test_a_leak_runs_with_nothing_open() -> None:
    leaking = played(Leak(supply="south", flow_lpm=5, at=SHEET.starts))
    assert flow_at(leaking, "south", DRY) == pytest.approx(5)
    assert flow_at(leaking, "well", DRY) == pytest.approx(5)
    assert flow_at(leaking, "north", DRY) == 0


def test_a_valve_stuck_open_gives_water_after_its_run_and_nobody_says_so() -> None:
    stuck = played(StuckOpen(station="s1", at=S1.start + 600))
    assert flow_at(stuck, "south", S1.end + 1800) == pytest.approx(40, rel=0.1)
    assert kinds(stuck, Kind.CLOSED, station="s1") == [S1.end]
    during, whole = flow_at(stuck, "south", S1.end - 60), flow_at(played(), "south", S1.end - 60)
    assert during == pytest.approx(whole)


def test_a_dead_valve_is_said_to_be_open_and_gives_nothing() -> None:
    dead = played(DeadValve(station="s1", at=SHEET.starts))
    assert kinds(dead, Kind.OPENED, station="s1") == [S1.start]
    assert set(flows(dead, "south").values()) == {0.0}
    assert counts(dead, "south")[0] == counts(dead, "south")[-1]


def test_a_clogging_filter_takes_flow_away_slowly() -> None:
    clogged = played(Clogged(supply="south", loss_pct=30, over_s=3600, at=S1.start))
    shares = [flow_at(clogged, "south", S1.start + after) / 40 for after in (900, 1800, 2700, 3660, 5400)]
    assert shares == pytest.approx([0.925, 0.85, 0.775, 0.7, 0.7], abs=0.01)
    assert flow_at(clogged, "north", MIDDLE) == pytest.approx(flow_at(played(), "north", MIDDLE))


def test_a_drifting_station_gives_a_little_less_each_night() -> None:
    drift = Drift(station="s1", pct_a_night=-1.5, at=SHEET.starts)
    sheets = [plan_night(DOCUMENT, date(2026, 7, day), effort=1) for day in (9, 10, 11, 20)]
    given = [
        flow_at(play(DOCUMENT, sheet, SEED, [drift], EXACT), "south", run_of(sheet, "s1").end - 60) for sheet in sheets
    ]
    assert given == pytest.approx([40, 40, 40 * 0.985, 40 * 0.85], rel=1e-3)


def test_a_stuck_meter_repeats_itself_and_counts_nothing() -> None:
    stuck = played(StuckMeter(supply="south", at=MIDDLE, until=DRY))
    readings = flows(stuck, "south")
    held = {flow for at, flow in readings.items() if MIDDLE <= at < DRY}
    assert held == {flow_at(stuck, "south", MIDDLE - 1)}
    assert flow_at(stuck, "south", DRY + 120) == 0
    missing = (counts(played(), "south")[-1] - counts(stuck, "south")[-1]) / 40 * 60
    assert missing == pytest.approx(S1.end - MIDDLE, abs=30)
    assert flow_at(stuck, "well", S1.end + 300) < 70


def test_a_power_cut_closes_the_cabinets_valves_and_is_told_when_the_power_is_back() -> None:
    back = MIDDLE + 1200
    cut = PowerCut(controller="cab-s", at=MIDDLE, until=back)
    entries = played(cut)
    assert flow_at(entries, "south", back - 60) == 0
    assert flow_at(entries, "north", back - 60) > 40
    assert flow_at(entries, "south", back + 300) == pytest.approx(40, rel=1e-3)
    assert kinds(entries, Kind.POWER_LOST, controller="cab-s") == [MIDDLE]
    assert kinds(entries, Kind.POWER_BACK, controller="cab-s") == [back]
    assert kinds(entries, Kind.OPENED, station="s1") == [S1.start, back]
    assert kinds(entries, Kind.CLOSED, station="s1") == [S1.end]
    assert not [at for at in kinds(entries, Kind.ALIVE, controller="cab-s") if MIDDLE <= at < back]
    late = [told.at for told in tellings(DOCUMENT, SHEET, SEED, [cut]) if told.entry.kind is Kind.POWER_LOST]
    assert late == [back]


def test_a_cut_that_outlasts_the_night_is_never_told() -> None:
    entries = played(PowerCut(controller="cab-s", at=MIDDLE))
    assert not kinds(entries, Kind.POWER_LOST)
    assert not kinds(entries, Kind.CLOSED, station="s1")
    assert flow_at(entries, "south", MIDDLE + 300) == 0


def test_a_site_without_power_tells_nothing_and_its_pump_stands_still() -> None:
    back = MIDDLE + 1200
    troubles = PowerCut(at=MIDDLE, until=back), Leak(supply="south", flow_lpm=5, at=SHEET.starts)
    entries = played(*troubles)
    told = {entry.kind for entry in entries if MIDDLE <= entry.at < back}
    assert told == {Kind.POWER_LOST}
    whole = played(troubles[1])
    assert counts(entries, "well")[-1] < counts(whole, "well")[-1] - 1500
    assert kinds(entries, Kind.POWER_LOST, controller=None) == [MIDDLE]


def test_a_leak_of_town_water_runs_on_without_power() -> None:
    """A well's pump stands still; the town's water comes by itself."""
    import builders as made
    from pengan.engine.document.tables import Supply

    lost = []
    for water in ("town", "well"):
        document = made.a_document(supplies=[made.a_supply("town", water=water)], turns=[])
        assert isinstance(document.supplies["town"], Supply)
        sheet = plan_night(document, date(2026, 7, 10), effort=1)
        cut = PowerCut(at=sheet.starts + 7200, until=sheet.starts + 14_400)
        leak = Leak(supply="town", flow_lpm=6, at=sheet.starts)
        counted = counts(play(document, sheet, SEED, [leak, cut], replace(EXACT, count_every_s=60)), "town")
        lost.append(counted[-1] - counted[0])
    assert lost[0] - lost[1] == pytest.approx(6 * 120, rel=0.01)


def test_a_silent_controller_waters_and_tells_late() -> None:
    silence = Silence(controller="cab-s", at=S1.start - 600, until=S1.end + 600)
    entries = played(silence)
    assert flow_at(entries, "south", MIDDLE) == pytest.approx(40, rel=1e-3)
    assert not [at for at in kinds(entries, Kind.ALIVE, controller="cab-s") if silence.at <= at < S1.end + 600]
    assert kinds(entries, Kind.OPENED, station="s1") == [S1.start]
    late = [told for told in tellings(DOCUMENT, SHEET, SEED, [silence], EXACT) if told.entry.station == "s1"]
    assert {told.at for told in late} == {S1.end + 600}


def test_what_a_controller_never_comes_to_tell_is_in_no_journal() -> None:
    entries = played(Silence(controller="cab-s", at=SHEET.starts))
    assert not [entry for entry in entries if entry.station == "s1" or entry.controller == "cab-s"]
    assert flow_at(entries, "south", MIDDLE) > 30


def test_a_main_that_is_shut_gives_nothing_to_what_is_below_it() -> None:
    entries = played(ShutMain(supply="north", at=MIDDLE, until=MIDDLE + 900))
    assert flow_at(entries, "north", MIDDLE + 600) == 0
    assert flow_at(entries, "south", MIDDLE + 600) == pytest.approx(40, rel=1e-3)
    assert kinds(entries, Kind.SHUT, supply="north") == [MIDDLE]
    assert kinds(entries, Kind.FREED, supply="north") == [MIDDLE + 900]


def test_a_stop_closes_every_valve_until_it_is_lifted() -> None:
    entries = played(Stop(text="Rain", at=MIDDLE, until=MIDDLE + 1800))
    assert flow_at(entries, "well", MIDDLE + 1740) == 0
    assert MIDDLE in kinds(entries, Kind.CLOSED, station="s1")
    assert MIDDLE + 1800 in kinds(entries, Kind.OPENED, station="s1")
    assert kinds(entries, Kind.STOPPED) == [MIDDLE]
    assert kinds(entries, Kind.LIFTED) == [MIDDLE + 1800]


def test_a_trouble_changes_nothing_elsewhere() -> None:
    """Noise is each meter's own, so that two nights can be held against each other reading by reading."""
    nature = replace(EXACT, noise_pct=2, off_pct=3)
    whole, troubled = played(nature=nature), played(Leak(supply="south", flow_lpm=5, at=DRY), nature=nature)
    before = [flow for at, flow in flows(whole, "north").items() if at < DRY]
    assert before == [flow for at, flow in flows(troubled, "north").items() if at < DRY]
