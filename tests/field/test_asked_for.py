"""Troubles as people type them."""

from __future__ import annotations

from datetime import date

import pytest

import builders as made
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.sun import place_of
from pengan.engine.clock.zones import clock_of
from pengan.engine.plan.tonight import Tonight
from pengan.field.asked_for import SORTS, TroubleFault, read_trouble
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
from pengan.words import Reader, WordsFault, say

DOCUMENT = made.a_document(
    supplies=[made.a_supply("well", name="Old well"), made.a_supply("north", name="Main North", fed_by="well")],
    controllers=[made.a_controller("cab", name="Cabinet North")],
    stations=[made.a_station("s1", number="104", name="Great lawn", supply="north", controller="cab"),
              made.a_station("s2", number="105", name="Roses", supply="north", controller="cab")],
)  # fmt: skip
CLOCK = clock_of(DOCUMENT.site)
NIGHT = night_on(CLOCK, date(2026, 11, 25))
TONIGHT = Tonight(DOCUMENT, NIGHT, CLOCK, place_of(DOCUMENT.site))
EVENING, MORNING = NIGHT.starts + 11 * 3600, NIGHT.starts + 14 * 3600  # 23:00 and 02:00
HERE = Reader("en-GB")


def typed(text: str, reader: Reader = HERE) -> Trouble:
    return read_trouble(text, TONIGHT, reader)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("break north from=23:00 until=02:00 flow=80", Break(supply="north", flow_lpm=80, at=EVENING, until=MORNING)),
        ("break Main North from=23:00 flow=1 m3/h for=3 h",
         Break(supply="north", flow_lpm=pytest.approx(1000 / 60), at=EVENING, until=MORNING)),
        ("break 104 flow=20", Break(station="s1", flow_lpm=20, at=NIGHT.starts)),
        ("leak well flow=5 from=02:00", Leak(supply="well", flow_lpm=5, at=MORNING)),
        ("stuck-open great lawn from=23:00", StuckOpen(station="s1", at=EVENING)),
        ("dead s2", DeadValve(station="s2", at=NIGHT.starts)),
        ("clogged north by=30%", Clogged(supply="north", loss_pct=30, at=NIGHT.starts)),
        ("clogged north over=90 min by=30", Clogged(supply="north", loss_pct=30, over_s=5400, at=NIGHT.starts)),
        ("drift 104 by=-2 since=2026-11-20",
         Drift(station="s1", pct_a_night=-2, at=NIGHT.starts - 5 * 86_400)),
        ("stuck-meter north from=23:00", StuckMeter(supply="north", at=EVENING)),
        ("power from=23:00 for=3 h", PowerCut(at=EVENING, until=MORNING)),
        ("power cab from=23:00", PowerCut(controller="cab", at=EVENING)),
        ("silent Cabinet North from=23:00 until=02:00", Silence(controller="cab", at=EVENING, until=MORNING)),
        ("shut north from=02:00", ShutMain(supply="north", at=MORNING)),
        ("stop Heavy rain from=23:00 until=02:00", Stop(text="Heavy rain", at=EVENING, until=MORNING)),
    ],
)  # fmt: skip
def test_each_kind_is_read(text: str, meant: Trouble) -> None:
    assert typed(text) == meant


def test_every_example_is_read_once_its_place_is_there() -> None:
    here = {"north": "north", "cabinet": "cab"}
    for kind, sort in SORTS.items():
        words = " ".join(here.get(word, word) for word in sort.example.split(" "))
        assert typed(words), kind


def test_amounts_are_in_the_readers_units_and_figures() -> None:
    assert typed("leak well flow=1,5", Reader("es")) == Leak(supply="well", flow_lpm=1.5, at=NIGHT.starts)
    found = typed("leak well flow=10", Reader("en", units="us"))
    assert isinstance(found, Leak)
    assert found.flow_lpm == pytest.approx(37.854, abs=0.01)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("flood north", "flood is no trouble that can be played. Known: break, leak,"),
        ("", " is no trouble that can be played."),
        ("leak north", "leak needs flow=, as in: leak north flow=5"),
        ("leak flow=5", "leak needs …, as in: leak north flow=5"),
        ("leak nowhere flow=5", "There is no supply nowhere in this document."),
        ("break nowhere flow=5", "There is neither a supply nor a station nowhere in this document."),
        ("silent nowhere", "There is no controller nowhere in this document."),
        ("dead nowhere", "There is no station nowhere in this document."),
        ("dead 104 flow=5", "dead has no part flow=. It has: from=, until=, for=."),
        ("leak well flow=0", "flow= has to lie between 0.1 and"),
        ("clogged north by=130", "by= has to lie between 0 and 100."),
        ("power from=25:00", "is no time of day"),
        ("power from=23:00 until=22:00", "A trouble cannot be over before it begins"),
    ],
)
def test_what_cannot_be_read_is_one_clear_sentence(text: str, told: str) -> None:
    with pytest.raises(TroubleFault) as found:
        typed(text)
    assert told in say(found.value.message, HERE)


@pytest.mark.parametrize("text", ["leak well flow=much", "power from=23:00 for=ever", "drift 104 by=1 since=May"])
def test_amounts_that_cannot_be_read_are_told_as_everywhere(text: str) -> None:
    with pytest.raises(WordsFault):
        typed(text)


def test_a_name_that_several_have_is_not_guessed() -> None:
    document = made.a_document(supplies=[made.a_supply("a", name="Main"), made.a_supply("b", name="main")],
                               stations=[made.a_station(supply="a")])  # fmt: skip
    with pytest.raises(TroubleFault) as found:
        read_trouble("leak Main flow=5", Tonight(document, NIGHT, CLOCK, None), HERE)
    assert say(found.value.message, HERE) == "Several are called Main. Give an id."
