"""The page in a made-up language, to find any text that escaped translation."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from werkzeug.serving import make_server

from escapes import escaped
from pengan.web.app import create_app
from pengan.web.settings import Settings
from pengan.words.languages import ACCENTED, MIRRORED
from pengan.words.pseudo import accented

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "site.json"
# The night in which Lisbon's clock goes back, in the middle of its watering.
NOW = datetime.fromisoformat("2026-10-24T23:30:00+01:00")

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


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server of the demo site on this machine; few constructions, since the plan is not what is tested."""
    settings = Settings(data=tmp_path_factory.mktemp("data"), first_document=DEMO, now=NOW, effort=2)
    server = make_server("127.0.0.1", 0, create_app(settings), threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    thread.join()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of its own for each test."""
    with browser.new_context(locale="en-US") as context:
        yield context.new_page()


def _known() -> set[str]:
    """What people typed into the demo site, and what is the same in every language."""
    data: dict[str, Any] = json.loads(DEMO.read_text(encoding="utf-8"))
    typed = {str(value) for record in data["records"] for value in record.values()}
    return typed | {"Pengan", "UTC", "English", "Español", "español"}


def _texts(page: Page) -> list[str]:
    found: list[str] = page.evaluate(EVERY_TEXT)
    return [text for text in found if text.strip()]


@pytest.mark.parametrize("width", [390, 1280])
def test_no_text_of_the_page_escapes(page: Page, address: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{address}?language={ACCENTED}")
    page.get_by_text(accented("The night as a table")).wait_for(state="attached")
    page.get_by_role("main").get_by_role("button").first.click()
    texts = _texts(page)
    assert len(texts) > 100
    known = _known()
    assert {word for text in texts for word in escaped(text, known)} == set()


def test_the_mirrored_language_turns_the_page_around(page: Page, address: str) -> None:
    page.goto(f"{address}?language={MIRRORED}")
    expect(page.locator("html")).to_have_attribute("dir", "rtl")
