"""The real server over the demo site, its clock standing, and pages that fail a test where the browser complains."""

from __future__ import annotations

import json
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page

from browser.answering import answering
from browser.joining import joined_phone
from browser.kept import keep_all
from browser.standing import DEMO, NOW, ROOT, Standing
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.web.settings import Settings

NOW_S = 1_792_881_000
"""The night in which Lisbon's clock goes back, half an hour before midnight."""


@dataclass(frozen=True)
class Served:
    """A server that answers, and what it says of tonight."""

    address: str
    document: Document
    sheet: dict[str, Any]

    @property
    def clock(self) -> SiteClock:
        return clock_of(self.document.site)


POLICY_WATCH = "addEventListener('securitypolicyviolation', (one) => console.error(`policy: ${one.violatedDirective}`))"
TOO_LITTLE_MEMORY = "Object.defineProperty(Navigator.prototype, 'deviceMemory', { get: () => 1 })"
"""With it the page does without its planner, whose start takes seconds of the machine. For tests that need none."""

Open = Callable[..., Page]


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One server for all tests of a process, with data of its own."""
    assert (ROOT / "server" / "pengan" / "web" / "app" / "index.html").is_file(), "build the page first: npm run build"
    data = tmp_path_factory.mktemp("served")
    settings = Settings(data=data, first_document=DEMO, now=datetime.fromisoformat(NOW), effort=10)
    with answering(settings) as address:
        document = read_document(json.loads(DEMO.read_text(encoding="utf-8")))
        yield Served(address, document, _json(f"{address}/api/sites/{document.site.id}/nights/tonight"))


def _json(address: str) -> dict[str, Any]:
    with urllib.request.urlopen(address, timeout=60) as answer:
        found: dict[str, Any] = json.load(answer)
    return found


@pytest.fixture(scope="module")
def standing(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    """A server of the module's own that its tests may stop."""
    made = Standing(tmp_path_factory.mktemp("standing"))
    yield made
    made.stop()


@pytest.fixture
def server(standing: Standing) -> Standing:
    """The same, answering again whatever the test before has done to it."""
    standing.start()
    return standing


@pytest.fixture(scope="module")
def planning_phone(browser: Browser, standing: Standing) -> Iterator[Page]:
    """A manager's phone that holds the whole app, the planner too."""
    with joined_phone(browser, standing, "manager") as page:
        page.wait_for_selector(".virtual-row")
        assert keep_all(page, planner=True)["ready"]
        yield page


@pytest.fixture
def open_page(browser: Browser, served: Served) -> Iterator[Open]:
    """Opens the page: `open_page("language=es", width=360)`. Complaints of the browser fail the test at its end."""
    complaints: list[str] = []
    contexts = []

    def listen(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            complaints.append(message.text)

    def open_one(
        query: str = "",
        *,
        width: int = 1280,
        height: int = 900,
        zone: str = "UTC",
        planner: bool = False,
        **named: Any,
    ) -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": height}, locale="en-GB", timezone_id=zone, **named
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(8000)
        page.on("console", listen)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.add_init_script(POLICY_WATCH)
        if not planner:
            page.add_init_script(TOO_LITTLE_MEMORY)
        page.goto(f"{served.address}/?hours=24&{query}")
        page.wait_for_selector(".block-labels", state="attached")  # they come last in the picture, and the table after
        page.wait_for_selector(".as-table", state="attached")
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert complaints == []
