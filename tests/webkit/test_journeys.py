"""The main journeys once more in Safari's engine, over a server that is really stopped and started."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from selenium.webdriver import WebKitGTK

from browser.codes import code_for
from browser.edits import run_s
from browser.standing import Standing
from webkit.hand import Hand

pytestmark = pytest.mark.journey

TURN, STATION = "stations/s101/turn/p-d-s101", "101"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("webkit"))
    standing.start()
    yield standing
    standing.stop()


@pytest.fixture
def hand(webkit: WebKitGTK, server: Standing) -> Hand:
    server.start()
    return Hand(webkit, server)


def come_in(hand: Hand, server: Standing) -> None:
    """By the address on the label: the code is filled in, the name is typed."""
    hand.open(f"join#{code_for(server, 'manager')}")
    hand.type(".more-form .field-input:not(.code-input)", "Inês Falcão")
    hand.press("Come in")
    hand.see(".next-time", r"\d")


def test_a_day_without_signal(hand: Hand, server: Standing) -> None:
    """See the next water, come in, lose the signal, change a run time, see what it does, and have it in force."""
    hand.open_metric()
    assert "23:" in hand.see(".next-time", r"\d\d:\d\d")
    hand.see(".drawing")
    come_in(hand, server)
    hand.open_metric(TURN)
    hand.value(".stepper-now", "90")
    hand.keep_all()

    server.stop()
    hand.open_metric(TURN)
    hand.value(".stepper-now", "90")
    hand.press("5 minutes more")
    hand.press("5 minutes more")
    hand.see("[aria-label=Effect], .effect", "Tonight with 100 min")
    hand.see(".effect-times", r"before \d\d:\d\d.?, after \d\d:\d\d")
    hand.press("Keep 100 min")
    hand.see(".tray", "Saved on this phone")
    hand.browser.refresh()
    hand.value(".stepper-now", "100")
    hand.see(".badge", "Unsent")

    server.start()
    hand.run("dispatchEvent(new Event('online'))")
    hand.unsee(".badge")
    assert run_s(server, "p-d-s101") == 6000


def test_language_and_units_without_signal_from_a_cold_start(hand: Hand, server: Standing) -> None:
    hand.open_metric()
    hand.see(".facts-measures", "L/min")
    hand.keep_all()
    server.stop()
    hand.browser.get("about:blank")
    hand.open("more/settings")
    hand.press("US customary", "label")
    hand.press("Español", "label")
    hand.see("html[lang=es] .room-head", "Ajustes")
    hand.open()
    hand.see("html[lang=es] .next-title", "Próximo riego")
    hand.see(".facts-measures", "gal/min|gpm")
