"""Everybody can use it: WCAG 2.2 by axe-core, large targets, narrow screens, large text, no motion unless wanted."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from .conftest import ROOT, Open

pytestmark = pytest.mark.journey

AXE = ROOT / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
LEAST_TARGET_PX = 56
"""Gloves and wet hands. WCAG 2.2 success criterion 2.5.5 asks for 44."""


def _flaws(page: Page) -> list[str]:
    page.evaluate(AXE.read_text(encoding="utf-8"))
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    # Where a rule is kept, one place is enough to tell: there are thousands.
    asked = {"runOnly": tags, "resultTypes": ["violations"]}
    found: dict[str, Any] = page.evaluate("(asked) => axe.run(document, asked)", asked)
    assert len(found["passes"]) > 20
    return [
        f"{flaw['id']}: {flaw['help']}: {node['html'][:160]} {node['failureSummary'][:300]}"
        for flaw in found["violations"]
        for node in flaw["nodes"][:3]
    ]


@pytest.mark.parametrize(
    ("light", "width", "language"), [("day", 360, "en"), ("sun", 820, "ar-XB"), ("night", 1280, "es")]
)
def test_axe_finds_nothing(open_page: Open, light: str, width: int, language: str) -> None:
    page = open_page(f"light={light}&language={language}", width=width)
    page.locator("[data-list=next] .row").nth(1).click()
    page.locator(".as-table summary").click()
    page.locator(".as-table tbody tr").first.wait_for()
    assert _flaws(page) == []


def test_every_target_is_large_enough_for_gloves(open_page: Open) -> None:
    page = open_page()
    for width in (320, 360, 820, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate(SMALL_TARGETS, LEAST_TARGET_PX) == [], width


SMALL_TARGETS = """(least) => [...document.querySelectorAll('button, summary, label.pick')]
  .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < least - 0.5)
  .map((one) => `${one.className} ${one.textContent}`)"""


@pytest.mark.parametrize(
    ("language", "screens"),
    [("en", [(320, 100), (1280, 200)]), ("en-XA", [(320, 100), (360, 200)]), ("ar-XB", [(360, 200)])],
)
def test_nothing_is_wider_than_the_screen(open_page: Open, language: str, screens: list[tuple[int, int]]) -> None:
    """WCAG 2.2 success criteria 1.4.4 (text at 200 %) and 1.4.10 (320 px without scrolling sideways)."""
    page = open_page(f"language={language}", width=screens[0][0])
    page.locator("[data-list=next] .row").nth(1).click()
    for width, text_pct in screens:
        page.set_viewport_size({"width": width, "height": 900})
        page.evaluate(f"document.documentElement.style.fontSize = '{text_pct}%'")
        page.evaluate(NEXT_PAINT)
        assert page.evaluate(TOO_WIDE) == [], (width, text_pct)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


NEXT_PAINT = "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
TOO_WIDE = """() => {
  const sideways = (one) => one && one !== document.body
    && (/auto|scroll/.test(getComputedStyle(one).overflowX) || sideways(one.parentElement));
  return [...document.querySelectorAll('body *')]
    .filter((one) => !one.closest('.drawing, .patterns') && !sideways(one.parentElement))
    .filter((one) => { const box = one.getBoundingClientRect();
                       return box.width > 0 && (box.right > innerWidth + 1 || box.left < -1); })
    .map((one) => `${one.tagName}.${one.className.baseVal ?? one.className}: ${one.textContent.slice(0, 60)}`);
}"""
"""What lies in a strip that scrolls by itself may reach past the screen; the strip may not."""


def test_nothing_moves_for_those_who_want_it_still(open_page: Open) -> None:
    still = open_page(reduced_motion="reduce")
    moving = open_page(reduced_motion="no-preference")
    duration = "getComputedStyle(document.querySelector('.row')).transitionDuration"
    assert (still.evaluate(duration), moving.evaluate(duration)) == ("0s", "0.18s")


def test_the_night_is_there_as_a_table(open_page: Open) -> None:
    page = open_page()
    page.locator(".as-table summary").click()
    page.locator(".as-table tbody tr").first.wait_for()
    expect(page.get_by_role("columnheader")).to_have_count(9)
    assert page.get_by_role("rowheader").count() == page.locator(".block").count()
