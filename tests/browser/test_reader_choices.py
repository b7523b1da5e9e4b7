"""Language, units, clock and light change at once, without loading the page again."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from browser.crew import choose
from pengan.words.quantities import write
from pengan.words.reader import Reader

from .conftest import NOW_S, Open, Served


def _choose(page: Page, title: str) -> None:
    """In the room More, without loading the page anew; the way back leads to the night."""
    page.evaluate("history.pushState(null, '', `/more/settings${location.search}`)")
    page.evaluate("dispatchEvent(new PopStateEvent('popstate'))")
    choose(page, title)
    page.evaluate("history.back()")
    page.wait_for_selector(".drawing .block")


def test_spanish_replaces_english_without_a_reload(open_page: Open, served: Served) -> None:
    page = open_page()
    page.evaluate("window.stayed = true")
    _choose(page, "Español")
    expect(page.locator("html")).to_have_attribute("lang", "es")
    reader = Reader(language="es")
    expect(page.locator(".next-title")).to_have_text(reader.gettext("Next water"))
    expect(page.locator("#soon-title")).to_have_text(reader.gettext("Next"))
    assert reader.gettext("Next water") != "Next water"
    assert page.evaluate("window.stayed") is True
    page.reload()
    expect(page.locator("html")).to_have_attribute("lang", "es")


def test_units_change_everywhere_at_once(open_page: Open, served: Served) -> None:
    page = open_page()
    run = min(
        (run for run in served.sheet["runs"] if run["start"] > NOW_S), key=lambda run: (run["start"], run["station"])
    )
    facts = page.locator(".facts-measures")
    expect(facts).to_contain_text(write("flow", run["flow_lpm"], Reader(language="en-GB")))
    _choose(page, "US customary")
    us = Reader(language="en-GB", units="us")
    expect(facts).to_contain_text(write("flow", run["flow_lpm"], us))
    expect(facts).to_contain_text(write("volume", run["volume_l"], us))
    page.locator(".as-table summary").click()
    page.locator(".as-table tbody tr").first.wait_for()
    assert not re.search(r"L/min|m³|\d L\b", page.locator("body").inner_text())


@pytest.mark.journey
def test_a_twelve_hour_clock_says_which_half_of_the_day(open_page: Open) -> None:
    page = open_page()
    _choose(page, "12 hours")
    expect(page.locator(".next-half")).to_have_text("pm")
    expect(page.locator(".next-time")).to_contain_text("11:")


def test_no_english_escapes_translation(open_page: Open, served: Served) -> None:
    """In the accented language every sentence stands in ⟦ ⟧; outside are only names people typed, dates and figures."""
    page = open_page("language=en-XA")
    page.locator("[data-list=next] .row").nth(1).click()
    for summary in page.locator("summary").all():
        summary.click()
    texts = page.evaluate(
        """() => {
          const texts = [];
          const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          const whole = 'text, p, li, button, h1, h2, td, th, dt, dd, caption, summary, legend, label';
          while (walk.nextNode()) {
            const sentence = walk.currentNode.parentElement.closest(whole) ?? walk.currentNode.parentElement;
            const parts = document.createTreeWalker(sentence, NodeFilter.SHOW_TEXT);
            const words = [];
            while (parts.nextNode()) words.push(parts.currentNode.data);
            texts.push(words.join(' '));
          }
          for (const one of document.querySelectorAll('[aria-label]')) texts.push(one.getAttribute('aria-label'));
          return [...new Set(texts)];
        }"""
    )
    assert sum("⟦" in text for text in texts) > 100
    allowed = _typed_words(served) | {"Oct", "Nov"} | set(DAYS)
    escaped = {word for text in texts for word in re.findall(r"[^\W\d_]{2,}", _outside(text)) if word not in allowed}
    assert escaped == set()


DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def _outside(text: str) -> str:
    """What is left of a text without its translated sentences, which may stand in each other."""
    while (shorter := re.sub(r"⟦[^⟦⟧]*⟧", " ", text)) != text:
        text = shorter
    return text


def _typed_words(served: Served) -> set[str]:
    document = served.document
    named = [document.site, *document.supplies.values(), *document.programs.values(), *document.stations.values()]
    named += [*document.closures.values(), *document.windows.values(), *document.hydrozones.values()]
    typed = [record.name for record in named] + [station.part for station in document.stations.values()]
    return {word for text in typed for word in re.findall(r"[^\W\d_]{2,}", text)}


@pytest.mark.journey
def test_light_follows_the_device_until_somebody_chooses(open_page: Open) -> None:
    page = open_page(color_scheme="dark")
    expect(page.locator("html")).to_have_attribute("data-light", "night")
    _choose(page, "Full sun")
    expect(page.locator("html")).to_have_attribute("data-light", "sun")
