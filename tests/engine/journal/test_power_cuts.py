"""A power cut that is told of late, or never, is one alarm that people understand, however its traces come in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from benchmarks.watched_nights import Alarm, Live
from engine.journal.told import a_night, a_park, an_entry, flow, opened, run_of
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.finding import Cause, Noticed
from pengan.engine.journal.watch import Known, watch_night
from pengan.field.play import tellings
from pengan.field.told import Told
from pengan.field.troubles import PowerCut, Silence, Trouble

PARK = a_park()
SHEET = a_night(PARK)
CUT = run_of(SHEET, "s1").start + 300
KNOWN = Known({"s1": 60, "s2": 40, "s3": 30, "s4": 20}, frozenset(["c1", "c2"]), frozenset(["town", "a", "b"]))
BACK = CUT + 3600
LATE_S = 600
CABINETS = pytest.mark.parametrize("cabinet", ["c1", "c2", None])


def lived(told: Iterable[Told]) -> list[Alarm]:
    """The alarms that people would have had."""
    live = Live(PARK, SHEET, KNOWN)
    live.play(sorted(told, key=lambda one: one.at))
    return live.alarms


def the_one(told: Iterable[Told]) -> Alarm:
    (alarm,) = lived(told)
    return alarm


def played(*troubles: Trouble, seed: int = 3) -> list[Told]:
    return tellings(PARK, SHEET, seed, troubles)


def told_after(told: Iterable[Told], delay_s: int) -> list[Told]:
    """Its loss is told so long after it, while there still is no power: by a person, or by somebody with a battery."""
    return [replace(one, at=one.entry.at + delay_s) if one.entry.kind is Kind.POWER_LOST else one for one in told]


def as_told_of(alarm: Alarm, cabinet: str | None) -> bool:
    """Whether an alarm says in the end who had no power, from when to when."""
    (spell,) = alarm.last.spells
    about = (alarm.last.kind, alarm.last.controller, alarm.last.supply)
    return about == (Noticed.POWER, cabinet, None) and (spell.start, spell.end) == (CUT, BACK)


@CABINETS
@pytest.mark.parametrize("seed", [3, 5, 8])
def test_what_is_told_once_the_power_is_back_is_the_alarm_that_its_lack_began(cabinet: str | None, seed: int) -> None:
    alarm = the_one(played(PowerCut(at=CUT, until=BACK, controller=cabinet), seed=seed))
    assert alarm.first.kind in (Noticed.TOO_LITTLE, Noticed.SILENT)
    assert as_told_of(alarm, cabinet)


@CABINETS
@pytest.mark.parametrize("delay_s", [30, 200, LATE_S, 1500])
def test_whenever_the_loss_is_told_it_is_one_alarm(cabinet: str | None, delay_s: int) -> None:
    told = told_after(played(PowerCut(at=CUT, until=BACK, controller=cabinet)), delay_s)
    assert as_told_of(the_one(told), cabinet)


def test_a_loss_that_is_told_of_a_little_after_the_flow_fell_is_the_same_fault() -> None:
    """The clock of whoever tells it is behind, so that it is no late entry: the lack is open, and goes on as a cut."""
    cut = PowerCut(at=CUT, until=BACK, controller="c1")
    told = [one for one in played(cut) if one.entry.kind not in (Kind.POWER_LOST, Kind.POWER_BACK)]
    told.append(Told(CUT + 170, an_entry(Kind.POWER_LOST, CUT + 170, controller="c1")))
    told.append(Told(BACK, an_entry(Kind.POWER_BACK, BACK, controller="c1")))
    alarm = the_one(told)
    assert (alarm.last.kind, alarm.last.controller, alarm.last.spells[-1].end) == (Noticed.POWER, "c1", BACK)


def test_never_told_it_is_still_one_alarm_until_the_cabinet_is_heard_again() -> None:
    cut = PowerCut(at=CUT, until=BACK, controller="c1")
    untold = [one for one in played(cut) if one.entry.kind not in (Kind.POWER_LOST, Kind.POWER_BACK)]
    alarm = the_one(untold)
    assert (alarm.last.kind, alarm.last.controller, alarm.last.voices) == (Noticed.POWER, "c1", ("c1",))
    assert alarm.last.says().code == "finding.power_guessed"
    end = alarm.last.spells[-1].end
    assert end is not None and end >= BACK


def test_a_lack_of_all_that_a_cabinet_has_open_is_probably_its_power_from_the_first() -> None:
    first = the_one(played(PowerCut(at=CUT, until=BACK, controller="c1"))).first
    assert (first.culprits[0].cause, first.culprits[0].controller) == (Cause.NO_POWER, "c1")
    assert first.culprits[0].sure > 0.9


def test_silence_of_all_at_once_is_probably_the_sites_power_from_the_first() -> None:
    first = the_one(played(PowerCut(at=CUT, until=BACK))).first
    assert first.kind is Noticed.SILENT
    assert [(one.cause, one.station, one.supply, one.controller) for one in first.culprits] == [
        (Cause.NO_POWER, None, None, None)
    ]


def test_a_loss_of_all_flow_at_meters_that_go_on_is_the_sites_power_too() -> None:
    """Meters with a battery: both cabinets have nothing open any more, and neither is heard."""
    sound = [one for one in played() if one.entry.at < CUT or one.entry.kind is Kind.FLOW]
    dry = [replace(one, entry=replace(one.entry, flow_lpm=0.0)) if one.entry.at > CUT else one for one in sound]
    alarm = the_one(dry)
    top = alarm.first.culprits[0]
    assert (top.cause, top.controller) == (Cause.NO_POWER, None) or top.controller in ("c1", "c2")
    assert (alarm.last.kind, alarm.last.controller, set(alarm.last.voices)) == (Noticed.POWER, None, {"c1", "c2"})
    assert alarm.last.says().code == "finding.power_guessed_many"


def test_a_silent_cabinet_whose_valves_go_on_is_no_lack_of_power() -> None:
    alarm = the_one(played(Silence(at=CUT, until=BACK, controller="c1")))
    assert (alarm.last.kind, alarm.last.controller) == (Noticed.SILENT, "c1")
    assert alarm.last.culprits == ()


def test_what_its_valves_lack_while_a_cabinet_is_silent_already_is_the_same_alarm() -> None:
    start = SHEET.starts
    words = [an_entry(Kind.ALIVE, start + 10, controller="c1"), *(opened(id, start + 20) for id in ("s1", "s2"))]
    meter = [flow("a", at, 100.0 if at < start + 3000 else 0.0) for at in range(start + 100, start + 3600, 60)]
    known = replace(KNOWN, metered=frozenset(["a"]))
    found = watch_night(PARK, None, [*words, *meter], known=known).findings()
    assert [(one.kind, one.controller, one.supply) for one in found] == [(Noticed.POWER, "c1", "a")]
    assert found[0].since < start + 100 and found[0].is_open


def test_a_cut_of_one_cabinet_leaves_the_alarm_of_another_main_alone() -> None:
    """Both are lacks about the same time; only what the cabinet's stations draw from is explained by its power."""
    told = played(PowerCut(at=CUT, until=BACK, controller="c2"))
    dead = [_less(one, 40.0) if one.entry.supply in ("a", "town") and one.entry.at > CUT - 900 else one for one in told]
    kinds = sorted((one.last.kind, one.last.supply or "") for one in lived(dead))
    assert (Noticed.POWER, "") in kinds and (Noticed.TOO_LITTLE, "a") in kinds


def _less(one: Told, lpm: float) -> Told:
    entry: Entry = one.entry
    if entry.kind is not Kind.FLOW or not entry.flow_lpm or entry.flow_lpm < lpm:
        return one
    return replace(one, entry=replace(entry, flow_lpm=entry.flow_lpm - lpm))
