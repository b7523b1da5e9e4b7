"""The page in a made-up language, to find any text that escaped translation."""

from __future__ import annotations

import json
from typing import Any

from playwright.sync_api import Page

from browser.standing import DEMO
from escapes import escaped
from pengan.words.languages import ACCENTED
from pengan.words.pseudo import accented

from .conftest import Open

EVERY_TEXT = """() => {
  const found = [];
  const walker = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.parentElement.closest("script, style, noscript")) found.push(node.data);
  }
  for (const element of document.querySelectorAll("*")) {
    for (const name of ["aria-label", "aria-description", "title", "alt", "placeholder"]) {
      if (element.hasAttribute(name)) found.push(element.getAttribute(name));
    }
  }
  return found;
}"""


def _known() -> set[str]:
    """What people typed into the demo site, and what is the same in every language."""
    data: dict[str, Any] = json.loads(DEMO.read_text(encoding="utf-8"))
    typed = {str(value) for record in data["records"] for value in record.values()}
    return typed | {"Pengan", "UTC", "English", "Español", "español"}


def _texts(page: Page) -> list[str]:
    found: list[str] = page.evaluate(EVERY_TEXT)
    return [text for text in found if text.strip()]


def test_no_text_of_the_page_escapes(open_page: Open) -> None:
    page = open_page(f"language={ACCENTED}", width=390)
    page.get_by_text(accented("The night as a table")).wait_for(state="attached")
    page.get_by_role("main").get_by_role("button").first.click()
    texts = _texts(page)
    assert len(texts) > 100
    known = _known()
    assert {word for text in texts for word in escaped(text, known)} == set()
