"""Which alarm a finding belongs to, how much it matters, and what is said beside it."""

from __future__ import annotations

from dataclasses import replace

from builders import a_document, a_supply
from pengan.engine.journal.alarm import (
    NEAR_S,
    Gravity,
    Held,
    alarm_id,
    gathered,
    gravity_of,
    hints,
    lost_l,
    matched,
    spells_of,
    why_over,
)
from pengan.engine.journal.finding import Cause, Culprit, Finding, Noticed, Spell
from pengan.words.say import say

AT = 1_783_720_000
FOUND = Finding("excess:north:1", Noticed.TOO_MUCH, "north", None, 20.0, (Spell(AT, AT + 60, None),), ("north",), (), 5)
HELD = Held("a1", Noticed.TOO_MUCH, "north", None, (Spell(AT, AT + 60, None),), "excess:north:1")
DOCUMENT = a_document(supplies=[a_supply("town", limit_lpm=100), a_supply("north", fed_by="town")])


def test_the_same_place_kind_and_time_is_the_same_alarm() -> None:
    renumbered = replace(FOUND, id="excess:north:2", spells=(Spell(AT + 30, AT + 90, None),))
    assert matched([HELD], [FOUND]) == {FOUND.id: "a1"}
    assert matched([HELD], [renumbered]) == {"excess:north:2": "a1"}


def test_another_place_kind_or_time_is_another() -> None:
    over = replace(HELD, spells=(Spell(AT - 9000, AT - 8900, AT - NEAR_S - 1),), finding=None)
    for other in (replace(HELD, supply="town", finding=None), replace(HELD, kind=Noticed.SILENT, finding=None), over):
        assert matched([other], [FOUND]) == {}


def test_what_it_was_taken_for_may_change() -> None:
    """Water with nothing open, a meter that errs: the finding keeps its id."""
    assert matched([HELD], [replace(FOUND, kind=Noticed.METER)]) == {FOUND.id: "a1"}
    unasked = replace(FOUND, kind=Noticed.UNASKED)
    assert matched([replace(HELD, finding=None)], [unasked]) == {FOUND.id: "a1"}


def test_two_findings_never_share_an_alarm_and_the_nearest_gets_it() -> None:
    later = replace(FOUND, id="excess:north:2", spells=(Spell(AT + 600, AT + 660, None),))
    second = replace(HELD, alarm="a2", spells=(Spell(AT + 600, AT + 660, None),), finding=None)
    assert matched([second, HELD], [later, FOUND]) == {"excess:north:1": "a1", "excess:north:2": "a2"}
    assert matched([HELD], [later, FOUND]) == {"excess:north:1": "a1"}


def test_an_alarms_id_is_the_same_for_the_same_fault() -> None:
    assert alarm_id("park", "2026-07-10", FOUND) == alarm_id("park", "2026-07-10", replace(FOUND, size_lpm=99.0))
    others = (("lawn", "2026-07-10"), ("park", "2026-07-11"))
    assert len({alarm_id(*where, FOUND) for where in (*others, ("park", "2026-07-10"))}) == 3


def test_how_much_it_matters_goes_by_what_the_pipes_can_give() -> None:
    assert gravity_of(DOCUMENT, FOUND) is Gravity.GRAVE
    assert gravity_of(DOCUMENT, replace(FOUND, size_lpm=19.0)) is Gravity.SERIOUS
    silent = replace(FOUND, kind=Noticed.SILENT, voices=("meter:north",))
    assert gravity_of(DOCUMENT, silent) is Gravity.MINOR
    assert gravity_of(DOCUMENT, replace(silent, kind=Noticed.POWER)) is Gravity.GRAVE


def test_culprits_are_named_with_how_sure_that_is() -> None:
    culprits = (Culprit(Cause.BREAK, 0.61, 20.0, station="n1"), Culprit(Cause.STUCK_OPEN, 0.3, 18.0, station="n2"))
    told = [say(one) for one in hints(culprits, ("n1", "n2"))]
    assert len(told) == 3 and "61" in told[0] and "n1" in told[0] and "30" in told[1] and "n2" in told[2]


def test_a_spell_over_noon_is_one_and_water_is_counted_until_it_ends() -> None:
    nights = {"2026-07-10": [Spell(AT, AT + 60, None)], "2026-07-11": [Spell(AT + 1000, AT + 1060, AT + 1600)]}
    assert spells_of(nights) == (Spell(AT, AT + 60, AT + 1600),)
    assert lost_l(30.0, spells_of(nights), AT + 9999) == 800.0
    assert lost_l(30.0, (Spell(AT, AT, None),), AT + 120) == 60.0


def test_why_it_is_over_says_what_is_right_again() -> None:
    over = replace(FOUND, spells=(Spell(AT, AT + 60, AT + 600),))
    assert why_over(over).code == "alarm.right_again"
    assert why_over(replace(over, kind=Noticed.SILENT)).code == "alarm.heard_again"
    assert why_over(replace(over, kind=Noticed.POWER, members=())).code == "alarm.power_again"


def test_whoever_falls_silent_again_and_again_is_one_fault() -> None:
    silent = replace(FOUND, id="silent:cab:1", kind=Noticed.SILENT, supply=None, controller="cab", voices=("cab",))
    again = replace(silent, id="silent:cab:2", spells=(Spell(AT - 900, AT - 800, AT - 600),))
    (one,) = gathered([silent, again])
    assert one.id == silent.id and [spell.start for spell in one.spells] == [AT - 900, AT]
    assert len(gathered([silent, replace(again, controller="other")])) == 2
