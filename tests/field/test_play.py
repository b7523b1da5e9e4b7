"""A sound night: what is played agrees with the sheet, and is the same each time."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builders import a_document
from field.grounds import EXACT, NIGHT, SEED, a_field, counts, flow_at, flows, played, run_of
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.reading import Known, read_entry, told
from pengan.engine.plan.night import plan_night
from pengan.field.nature import Nature
from pengan.field.play import last_counts, play
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
    Trouble,
)
from valid_documents import documents

ROUGH = Nature()


def test_the_same_seed_gives_the_same_entries_and_another_gives_others() -> None:
    document, sheet = a_field()
    assert list(play(document, sheet, 3)) == list(play(document, sheet, 3))
    assert list(play(document, sheet, 3)) != list(play(document, sheet, 4))


def test_another_interpreter_plays_the_same() -> None:
    """Text has another hash in each interpreter; nothing may hang on that."""
    root = Path(__file__).parents[2]
    ours = _digest()
    words = "import sys; sys.path[:0] = ['server', 'tests']; from field.test_play import _digest; print(_digest())"
    theirs = subprocess.run(
        [sys.executable, "-c", words], cwd=root, env={"PYTHONHASHSEED": "5"}, capture_output=True, text=True, check=True
    )
    assert theirs.stdout.strip() == ours


def _digest() -> str:
    from hashlib import sha256

    document, sheet = a_field()
    troubles = (Leak(supply="north", flow_lpm=3, at=sheet.starts), StuckOpen(station="s1", at=sheet.starts))
    entries = play(document, sheet, 3, troubles, Nature(metered=frozenset({"north", "south", "well"})))
    return sha256(repr(list(entries)).encode()).hexdigest()


def test_entries_come_in_order_of_occurrence_with_ids_of_their_own() -> None:
    entries = played(nature=ROUGH)
    assert [entry.at for entry in entries] == sorted(entry.at for entry in entries)
    assert len({entry.id for entry in entries}) == len(entries)


def test_ids_of_two_nights_and_of_another_trouble_differ() -> None:
    document, sheet = a_field()
    ids = {entry.id for entry in play(document, sheet, SEED)}
    next_night = plan_night(document, date(2026, 7, 11), effort=1)
    assert ids.isdisjoint(entry.id for entry in play(document, next_night, SEED))
    leak = Leak(supply="north", flow_lpm=2, at=sheet.starts)
    assert ids.isdisjoint(entry.id for entry in play(document, sheet, SEED, [leak]))


def test_every_entry_is_one_that_the_journal_takes() -> None:
    document, sheet = a_field()
    everything = all_troubles(document, sheet.starts + 36_000, sheet.starts + 40_000)
    known = Known(document.stations, document.supplies, document.controllers)
    entries = list(play(document, sheet, SEED, everything))
    assert {entry.kind for entry in entries} >= {Kind.POWER_LOST, Kind.POWER_BACK, Kind.SHUT, Kind.FREED, Kind.STOPPED}
    for entry in entries:
        assert read_entry(told(entry), entry.by, known, sheet.ends) == entry


def test_each_run_of_the_sheet_is_opened_and_closed() -> None:
    _, sheet = a_field()
    entries = played()
    for kind, edge in ((Kind.OPENED, "start"), (Kind.CLOSED, "end")):
        told_of = [(entry.at, entry.station) for entry in entries if entry.kind is kind]
        assert sorted(told_of) == sorted((getattr(run, edge), run.station) for run in sheet.runs)


def test_a_settled_reading_is_the_stations_flow() -> None:
    _, sheet = a_field()
    run = run_of(sheet, "n1")
    readings = flows(played(), "north")
    settled = [flow for at, flow in readings.items() if run.start + 300 < at < run.end]
    assert settled
    assert settled == pytest.approx([60.0] * len(settled), rel=1e-3)


def test_pipes_that_fill_draw_more_at_first_and_settle() -> None:
    """Read every second: nothing until the valve gives water, then more than its flow, and ever less."""
    document, sheet = a_field()
    run = run_of(sheet, "s1")
    readings = flows(play(document, sheet, SEED, nature=replace(EXACT, read_every_s=1)), "south")
    assert readings[run.start] == 0
    first = next(at for at in range(run.start, run.end) if readings[at] > 0)
    assert 1 <= first - run.start <= EXACT.opening_s
    filling = [readings[at] for at in range(first, first + 60)]
    assert filling == sorted(filling, reverse=True)
    assert 1.2 * 40 < filling[0] < 1.6 * 40
    assert readings[first + 200] == pytest.approx(40, rel=1e-3)


def test_a_valve_takes_a_while_to_close() -> None:
    document, sheet = a_field()
    run = run_of(sheet, "s1")
    readings = flows(play(document, sheet, SEED, nature=replace(EXACT, read_every_s=1)), "south")
    assert readings[run.end + 1] > 0
    assert readings[run.end + EXACT.closing_s] == 0


def test_counters_agree_with_the_sheet_within_what_fills_the_pipes() -> None:
    _, sheet = a_field()
    for draw in sheet.draws:
        counted = counts(played(), draw.supply)
        assert draw.volume_l < counted[-1] - counted[0] < draw.volume_l * 1.02


def test_counters_are_the_sum_of_the_readings() -> None:
    """Two ways to the same water: each second's reading added up, and the counter's closed form."""
    document, sheet = a_field()
    troubles = all_troubles(document, sheet.starts + 36_500, sheet.starts + 39_000, leave=(StuckMeter, PowerCut))
    entries = list(play(document, sheet, SEED, troubles, replace(EXACT, read_every_s=1)))
    for supply in document.supplies:
        counted = counts(entries, supply)
        assert sum(flows(entries, supply).values()) / 60 == pytest.approx(
            counted[-1] - counts_before(entries, supply), 2e-3
        )


def counts_before(entries: list[Entry], supply: str) -> float:
    """The counter in the evening: it has not moved when it is told first."""
    return counts(entries, supply)[0]


def test_what_feeds_others_draws_what_they_draw() -> None:
    document, sheet = a_field()
    entries = list(play(document, sheet, SEED, nature=replace(EXACT, read_every_s=1)))
    well, north, south = (flows(entries, supply) for supply in ("well", "north", "south"))
    assert well == pytest.approx({at: north[at] + south[at] for at in well})
    assert max(well.values()) > 90


def test_stations_differ_from_the_document_by_a_few_percent_the_same_in_each_night() -> None:
    document, sheet = a_field()
    next_sheet = plan_night(document, date(2026, 7, 11), effort=1)
    nature = replace(EXACT, off_pct=3)
    both = [flow_at(play(document, one, SEED, nature=nature), "south", run_of(one, "s1").end - 60)
            for one in (sheet, next_sheet)]  # fmt: skip
    assert both[0] == pytest.approx(both[1])
    assert both[0] != pytest.approx(40, rel=1e-4)
    assert both[0] == pytest.approx(40, rel=0.15)


def test_readings_scatter_as_asked() -> None:
    _, sheet = a_field()
    run = run_of(sheet, "s1")
    readings = flows(played(nature=replace(EXACT, noise_pct=2, read_every_s=5)), "south")
    settled = [flow / 40 - 1 for at, flow in readings.items() if run.start + 300 < at < run.end]
    spread = (sum(off * off for off in settled) / len(settled)) ** 0.5
    assert 0.018 < spread < 0.022


def test_meters_tell_whole_steps_and_only_those_that_are_there() -> None:
    entries = played(nature=replace(ROUGH, step_lpm=2, metered=frozenset({"north"})))
    assert {entry.supply for entry in entries if entry.kind is Kind.FLOW} == {"north"}
    assert all(flow % 2 == 0 for flow in flows(entries, "north").values())


def test_counters_go_on_from_the_night_before() -> None:
    document, sheet = a_field()
    last = last_counts(play(document, sheet, SEED))
    next_sheet = plan_night(document, date(2026, 7, 11), effort=1)
    entries = list(play(document, next_sheet, SEED, counts=last))
    assert last.keys() == document.supplies.keys()
    assert all(counts(entries, supply)[0] == last[supply] for supply in last)


def test_controllers_are_heard_all_night() -> None:
    heard = [entry.at for entry in played() if entry.kind is Kind.ALIVE and entry.controller == "cab-n"]
    gaps = {later - earlier for earlier, later in zip(heard, heard[1:], strict=False)}
    assert gaps == {EXACT.alive_every_s}


def test_a_night_without_runs_is_dry() -> None:
    document = a_document(turns=[])
    entries = list(play(document, plan_night(document, NIGHT), SEED))
    assert {entry.flow_lpm for entry in entries if entry.kind is Kind.FLOW} == {0.0}


def test_a_trouble_of_what_is_not_there_is_refused() -> None:
    document, sheet = a_field()
    with pytest.raises(KeyError, match="station nowhere"):
        list(play(document, sheet, SEED, [DeadValve(station="nowhere", at=0)]))


def all_troubles(
    document: Document, at: int, until: int | None, leave: tuple[type[Trouble], ...] = ()
) -> list[Trouble]:
    """One of each kind, at the document's first supply, station and controller."""
    supply, station = next(iter(document.supplies)), next(iter(document.stations))
    found: list[Trouble] = [
        Break(supply=supply, flow_lpm=30, at=at, until=until),
        Break(station=station, flow_lpm=15, at=at, until=until),
        Leak(supply=supply, flow_lpm=4, at=at, until=until),
        StuckOpen(station=station, at=at, until=until),
        DeadValve(station=list(document.stations)[-1], at=at, until=until),
        Clogged(supply=supply, loss_pct=30, over_s=1800, at=at, until=until),
        Drift(station=station, pct_a_night=-2, at=at - 5 * 86_400, until=until),
        StuckMeter(supply=supply, at=at, until=until),
        PowerCut(at=at + 300, until=at + 900),
        ShutMain(supply=list(document.supplies)[-1], at=at, until=until),
        Stop(text="Rain", at=at + 1200, until=at + 1500),
    ]
    for controller in list(document.controllers)[:1]:
        found += [
            PowerCut(controller=controller, at=at + 100, until=until),
            Silence(controller=controller, at=at, until=until),
        ]
    return [trouble for trouble in found if not isinstance(trouble, leave)]


@settings(max_examples=60)
@given(
    data=documents(),
    day=st.dates(date(2026, 1, 1), date(2027, 12, 31)),
    begins=st.integers(-90_000, 90_000),
    lasts=st.none() | st.integers(0, 90_000),
    seed=st.integers(0, 1000),
)
def test_no_site_breaks_it(data: dict[str, object], day: date, begins: int, lasts: int | None, seed: int) -> None:
    """Any site, any night, every trouble at once, from before the night or beyond its end."""
    document = read_document(data)
    sheet = plan_night(document, day, effort=1)
    at = sheet.starts + begins
    troubles = all_troubles(document, at, None if lasts is None else at + lasts)
    nature = Nature(read_every_s=1800, alive_every_s=3600)
    entries = list(play(document, sheet, seed, troubles, nature))
    assert [entry.at for entry in entries] == sorted(entry.at for entry in entries)
    assert all(sheet.starts <= entry.at <= sheet.ends for entry in entries)
    assert all(entry.flow_lpm >= 0 for entry in entries if entry.flow_lpm is not None)
    for supply in document.supplies:
        counted = counts(entries, supply)
        assert counted == sorted(counted)
