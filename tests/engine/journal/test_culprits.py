"""Who may be at fault, how sure that is, and what to run to tell."""

from __future__ import annotations

from engine.journal.told import a_park, an_entry, closed, flow, opened
from pengan.engine.journal.culprits import SURE_ENOUGH, trial
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.finding import Cause, Culprit, Finding
from pengan.engine.journal.watch import Known, watch_night

PARK = a_park()
KNOWN = Known({"s1": 60, "s2": 40, "s3": 30, "s4": 20}, frozenset(["c1", "c2"]), frozenset())


def suspect(station: str, sure: float) -> Culprit:
    return Culprit(Cause.BREAK, sure, 20.0, station=station)


def readings(supply: str, *levels: tuple[int, int, float]) -> list[Entry]:
    """What a meter shows, a reading each 30 s, of so much flow from one instant to another."""
    times = [(at, lpm) for start, end, lpm in levels for at in range(start, end, 30)]
    return [flow(supply, at, lpm + (number % 3 - 1) * 0.3 if lpm else 0) for number, (at, lpm) in enumerate(times)]


def finding(*entries: Entry) -> Finding:
    found = watch_night(PARK, None, entries, known=KNOWN).findings()
    assert len(found) == 1
    return found[0]


def test_while_two_run_together_both_are_suspected_alike_and_one_run_alone_would_tell() -> None:
    both = [opened("s1", 1000), opened("s2", 1000)]
    one = finding(*both, *readings("a", (900, 1000, 0), (1010, 1900, 100), (1900, 2400, 125)))
    breaks = {each.station: each.sure for each in one.culprits if each.cause is Cause.BREAK}
    assert breaks["s1"] == breaks["s2"]
    assert one.trial in (("s1",), ("s2",))


def test_once_one_has_closed_and_the_water_goes_on_it_is_no_longer_suspected() -> None:
    both = [opened("s1", 1000), opened("s2", 1000), closed("s2", 2400)]
    one = finding(*both, *readings("a", (1010, 1900, 100), (1900, 2400, 125), (2440, 3000, 85)))
    assert [each.station for each in one.culprits if each.sure > 0.05] in (["s1", None], [None, "s1"], ["s1"])


def test_a_lack_of_just_one_stations_flow_from_its_opening_on_is_its_dead_valve() -> None:
    both = [opened("s1", 1000), opened("s2", 2000)]
    one = finding(*both, *readings("a", (1010, 3000, 60)))
    assert (one.culprits[0].cause, one.culprits[0].station) == (Cause.DEAD_VALVE, "s2")
    assert one.culprits[0].sure > 0.9


def test_all_that_one_controller_has_open_giving_nothing_is_its_power() -> None:
    told = [opened(id, 1000) for id in ("s1", "s2", "s3", "s4")]
    one = finding(*told, *readings("town", (1010, 2000, 150), (2000, 3000, 20)))
    assert (one.culprits[0].cause, one.culprits[0].controller) == (Cause.NO_POWER, "c1")


def test_water_that_stays_when_one_station_closes_is_its_valve() -> None:
    told = [opened("s1", 1000), opened("s2", 1000), closed("s2", 2000)]
    one = finding(*told, *readings("a", (1010, 2600, 100)))
    assert (one.culprits[0].cause, one.culprits[0].station) == (Cause.STUCK_OPEN, "s2")


def test_a_leak_of_just_what_a_station_takes_that_has_been_closed_for_long_is_rather_in_the_pipe() -> None:
    one = finding(*readings("a", (900, 3000, 0), (3000, 4000, 40)))
    assert (one.culprits[0].cause, one.culprits[0].supply) == (Cause.BREAK, "a")
    assert {each.station for each in one.culprits if each.cause is Cause.STUCK_OPEN} <= {"s2"}


def test_a_station_cannot_lack_more_than_it_gives() -> None:
    told = [opened(id, 1000) for id in ("s1", "s2")]
    one = finding(*told, *readings("a", (1010, 2000, 100), (2000, 3000, 45)))
    assert {each.station for each in one.culprits if each.station} == {"s1"}


def test_a_controller_that_was_heard_since_has_power() -> None:
    """Else its power would be the likeliest: it has lost just what its stations take."""
    told = [opened(id, 1000) for id in ("s1", "s2", "s3", "s4")]
    meters = readings("town", (1010, 2000, 150), (2000, 3000, 20))
    one = finding(*told, *meters, an_entry(Kind.ALIVE, 2700, controller="c1"))
    sure = {each.controller: each.sure for each in one.culprits}
    assert sure.get("c1", 0) < 0.5


def test_a_lack_may_come_from_anything_above_that_feeds_nobody_else_just_then() -> None:
    told = [opened("s1", 1000)]
    above = [one for supply in ("a", "town") for one in readings(supply, (1010, 2000, 60), (2000, 3000, 40))]
    clogged = {each.supply: each.sure for each in finding(*told, *above).culprits if each.cause is Cause.CLOGGED}
    assert clogged.keys() == {"a", "town"}


def test_a_lack_that_those_beside_it_do_not_share_is_its_own() -> None:
    told = [opened("s1", 1000), opened("s3", 1000)]
    town, a = (readings(id, (1010, 2000, 60 + more), (2000, 3000, 40 + more)) for id, more in (("town", 30), ("a", 0)))
    one = finding(*told, *town, *a, *readings("b", (1010, 3000, 30)))
    assert {each.supply for each in one.culprits if each.cause is Cause.CLOGGED} == {"a"}


def test_nothing_needs_to_be_run_where_one_is_as_good_as_sure_or_no_station_is_suspected() -> None:
    assert trial([suspect("s1", SURE_ENOUGH), suspect("s2", 0.05)]) == ()
    assert trial([Culprit(Cause.BREAK, 0.6, 20.0, supply="a")]) == ()
    assert trial([]) == ()


def test_what_is_run_shows_the_fault_with_a_chance_nearest_to_one_half() -> None:
    """What a pipe loses shows whatever runs, so that running both of two suspects would tell nothing."""
    assert trial([suspect("s1", 0.3), suspect("s2", 0.25), suspect("s3", 0.24), suspect("s4", 0.21)]) == ("s1", "s4")
    assert trial([suspect("s1", 0.5), suspect("s2", 0.3), suspect("s3", 0.2)]) == ("s1",)
    pipe = Culprit(Cause.BREAK, 0.4, 20.0, supply="a")
    assert trial([pipe, suspect("s1", 0.3), suspect("s2", 0.3)]) == ("s1",)
