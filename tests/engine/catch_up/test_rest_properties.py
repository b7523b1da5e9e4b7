"""What holds for the rest of every night, whatever happened on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from random import Random
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from nights.as_document import NIGHT, as_document
from nights.families import FAMILIES, night
from nights.happening import as_it_came, valves
from pengan.engine.catch_up.happened import NO_OUTAGES, Happened, as_told
from pengan.engine.catch_up.parts import ROUNDS
from pengan.engine.catch_up.rest import Rest, Way, rest_of_night
from pengan.engine.check.rest_of_sheet import rest_violations
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.journal.outages import Outages
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import dumps, loads
from valid_documents import DATES, documents

EFFORT = 12
kept_on = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


@dataclass(frozen=True)
class Case:
    """A site, its sheet, a moment, and what happened until then."""

    document: Document
    sheet: NightSheet
    now: int
    happened: Happened
    outages: Outages

    @cached_property
    def kept(self) -> Rest:
        return rest_of_night(self.document, self.sheet, self.now, self.happened, way=Way.KEEP)

    @cached_property
    def recovered(self) -> Rest:
        return rest_of_night(self.document, self.sheet, self.now, self.happened, effort=EFFORT)

    @property
    def both(self) -> tuple[Rest, Rest]:
        return self.kept, self.recovered


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Made-up nights of every family and any valid document, with outages of every kind and odd valves."""
    random = Random(draw(st.integers(0, 10**6)))
    if draw(st.booleans()):
        document, day = as_document(night(draw(st.sampled_from(sorted(FAMILIES))), draw(st.integers(3, 14)), 1)), NIGHT
    else:
        data, day = draw(st.tuples(documents(), DATES))
        document = read_document(data)
    sheet = plan_night(document, day, effort=4)
    assume(sheet.runs)
    first, last = sheet.runs[0].start - 1800, max(run.end for run in sheet.runs) + 1800
    now = random.randrange(max(sheet.starts, first), min(sheet.ends, last))
    happened, outages = as_it_came(random, document, sheet, now, odd=draw(st.sampled_from((0.0, 0.3))))
    return Case(document, sheet, now, happened, outages)


def seconds_by_turn(sheet: NightSheet) -> dict[str, int]:
    found: dict[str, int] = {}
    for run in sheet.runs:
        found[run.turn] = found.get(run.turn, 0) + run.end - run.start
    return found


@settings(kept_on, max_examples=60)
@given(cases())
def test_no_limit_closure_or_outage_is_broken(case: Case) -> None:
    for rest in case.both:
        assert rest_violations(case.document, rest.sheet, case.now, case.outages) == ()


@settings(kept_on, max_examples=30)
@given(cases())
def test_no_turn_gets_more_than_it_was_due_with_what_it_got_already(case: Case) -> None:
    due = seconds_by_turn(case.sheet)
    for short in case.sheet.shortfalls:
        due[short.turn] = due.get(short.turn, 0) + short.run_s
    ran: dict[str, int] = {}
    for one in case.happened.ran:
        ran[one.turn] = ran.get(one.turn, 0) + one.end - one.start
    for rest in case.both:
        for turn, seconds in seconds_by_turn(rest.sheet).items():
            assert seconds <= max(due[turn], ran.get(turn, 0)), turn


@settings(kept_on, max_examples=30)
@given(cases())
def test_recovering_never_misses_more_than_keeping_to_the_clock(case: Case) -> None:
    assert case.recovered.effect.lost_l <= case.kept.effect.lost_l + 0.001
    assert case.recovered.sheet.volume_l >= case.kept.sheet.volume_l - 0.001 * len(case.sheet.runs)


@settings(kept_on, max_examples=30)
@given(cases())
def test_before_now_stands_what_ran_and_nothing_else(case: Case) -> None:
    ran = sorted((one.turn, one.start) for one in case.happened.ran)
    for rest in case.both:
        assert sorted((run.turn, run.start) for run in rest.sheet.runs if run.start < case.now) == ran


@settings(kept_on, max_examples=30)
@given(cases())
def test_a_night_that_runs_as_planned_stays_as_it_is(case: Case) -> None:
    told = as_told(case.document, case.sheet, valves(Random(1), case.sheet, case.now, odd=0), NO_OUTAGES, case.now)
    for way in Way:
        rest = rest_of_night(case.document, case.sheet, case.now, told, way=way, effort=EFFORT)
        assert rest.sheet == case.sheet
        assert (rest.effect.moved_count, rest.effect.lost_l, rest.effect.carried) == (0, 0.0, ())


@settings(kept_on, max_examples=25)
@given(cases())
def test_the_same_night_gives_the_same_rest_and_spends_what_it_may(case: Case) -> None:
    again = rest_of_night(case.document, case.sheet, case.now, case.happened, effort=EFFORT)
    assert (again.sheet, again.effect) == (case.recovered.sheet, case.recovered.effect)
    assert again.sheet.constructions <= max(EFFORT + 1 + ROUNDS, case.sheet.constructions)


@settings(kept_on, max_examples=25)
@given(cases())
def test_water_adds_up(case: Case) -> None:
    """What ran, what is to come and what falls short are what was due, but for scraps and what ran too long."""
    for rest in case.both:
        short = sum(part.volume_l for part in rest.sheet.shortfalls)
        scraps = sum(run.flow_lpm for run in rest.sheet.runs)
        over = sum(one.end - one.start for one in case.happened.ran) / 60 * max(run.flow_lpm for run in case.sheet.runs)
        assert rest.sheet.volume_due_l <= rest.sheet.volume_l + short + scraps + 0.001
        assert rest.sheet.volume_l + short <= rest.sheet.volume_due_l + over + 0.001


@settings(kept_on, max_examples=25)
@given(cases())
def test_a_catch_up_can_follow_a_catch_up(case: Case) -> None:
    """The new sheet is one like any other: it is written, read, and worked out anew after a second interruption."""
    sheet = loads(dumps(case.recovered.sheet))
    assert sheet == case.recovered.sheet
    later = min(case.now + 1800, sheet.ends - 1)
    random = Random(case.now)
    happened, outages = as_it_came(random, case.document, sheet, later)
    for way in Way:
        rest = rest_of_night(case.document, sheet, later, happened, way=way, effort=4)
        assert rest_violations(case.document, rest.sheet, later, outages) == ()


@settings(kept_on, max_examples=25)
@given(cases(), st.integers(50, 200))
def test_an_edit_at_night_moves_nothing_into_the_past(case: Case, percent: int) -> None:
    """The site's seasonal percentage changes while the night is under way."""
    edited = with_site(case.document, seasonal_pct=percent)
    rest = rest_of_night(edited, case.sheet, case.now, effort=EFFORT)
    begun = sorted((run.turn, run.start) for run in case.sheet.runs if run.start < case.now)
    assert begun == sorted((run.turn, run.start) for run in rest.sheet.runs if run.start < case.now)
    assert rest_violations(edited, rest.sheet, case.now, NO_OUTAGES) == ()
    assert not {run.turn for run in rest.sheet.runs if run.start >= case.now} & over(case)


def over(case: Case) -> set[str]:
    """Turns that have run by now, with nothing of them to come and nothing that fell short."""
    begun = {run.turn for run in case.sheet.runs if run.end <= case.now}
    short = {one.turn for one in case.sheet.shortfalls}
    return begun - short - {run.turn for run in case.sheet.runs if run.end > case.now}


def with_site(document: Document, **fields: Any) -> Document:
    return replace(document, site=replace(document.site, **fields))
