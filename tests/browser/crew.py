"""People with phones of their own: how they come in, and what their browsers complain of."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page

from browser.codes import let_in
from browser.standing import Standing
from pengan.web.people.rights import Role

EXPECTED = re.compile(r"Failed to load resource|net::ERR_|The planner stopped|when fetching the script")
"""What is noted of every refusal and every broken line, which tests here bring about on purpose."""


CUT_OFF = re.compile(
    'Failed to fetch|wasm instantiation failed|Unable to preload|dynamically imported|not "text/event-stream"'
)
"""What is noted besides, where the server ends while parts of the app are on their way, or a login page answers."""


@contextmanager
def phone(browser: Browser, *, width: int = 360, height: int = 740, cut_off: bool = False) -> Iterator[BrowserContext]:
    """A phone of its own. What its browser complains of fails the test at its end."""
    complaints: list[str] = []

    def listen(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and not EXPECTED.search(message.text):
            complaints.append(message.text)

    context = browser.new_context(viewport={"width": width, "height": height}, locale="en-GB", timezone_id="UTC")
    context.set_default_timeout(30_000)
    context.on("console", listen)
    context.on("weberror", lambda error: complaints.append(str(error.error)))
    yield context
    context.close()
    unexpected = [text for text in complaints if not (cut_off and CUT_OFF.search(text))]
    assert not unexpected, unexpected


def come_in(context: BrowserContext, server: Standing, role: Role, name: str, device: str = "Test phone") -> Page:
    """Somebody new with a role, and their first page open on the room More."""
    let_in(context, server, role, name, device)
    return open_at(context, server, "more")


def open_at(context: BrowserContext, server: Standing, path: str) -> Page:
    page = context.new_page()
    page.goto(f"{server.address}/{path}")
    page.wait_for_selector(".room-head")
    return page


def in_step(page: Page) -> None:
    """Until the phone and the server hold the same."""
    page.locator(".sync-chip", has_text="In step").filter(visible=True).first.wait_for()


def choose(page: Page, value: str, group: str | None = None) -> None:
    """One of several, as a finger does: what covers it has to give way first."""
    where = page.get_by_role("group", name=group) if group else page
    radio = page.get_by_role("radio", name=value)
    where.locator("label").filter(has=radio).first.click()
