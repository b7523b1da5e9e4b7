"""A phone whose reader has joined the demo site's team."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, Page

from browser.codes import let_in
from browser.kept import keep_all
from browser.standing import Standing
from pengan.web.people.rights import Role

SETTINGS = "hours=24&units=metric&language=en"


@contextmanager
def joined_phone(browser: Browser, server: Standing, role: Role, name: str = "Inês Falcão") -> Iterator[Page]:
    """A phone with the whole app, on the room of the stations. Faults of the page fail the test at its end."""
    with phone_at(browser, server, "stations", role, name) as page:
        keep_all(page)
        yield page


@contextmanager
def phone_at(browser: Browser, server: Standing, path: str, role: Role, name: str = "Inês Falcão") -> Iterator[Page]:
    """A phone that opens the app at a place. Faults of the page fail the test at its end."""
    server.start()
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    context.set_default_timeout(20_000)
    let_in(context, server, role, name)
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(f"{server.address}/{path}?{SETTINGS}")
    yield page
    context.close()
    assert faults == []
