"""What tests of edits do on a phone, and what they ask of the server about them."""

from __future__ import annotations

import json
import re
import time
import urllib.request
from typing import Any

from playwright.sync_api import Page, expect

from browser.codes import SITE
from browser.joining import SETTINGS
from browser.standing import Standing

SOON_MS = 60_000
"""The phone speaks to the server by itself; after a silence it waits a while before it tries again."""


def open_at(page: Page, server: Standing, path: str) -> None:
    page.goto(f"{server.address}/{path}?{SETTINGS}")
    expect(page.locator("main")).to_be_visible()


def go_to(page: Page, path: str) -> None:
    """To a place in the app without fetching anything, as a tap on a way there does."""
    page.evaluate(
        """(path) => {
          history.pushState(null, "", path + location.search);
          dispatchEvent(new PopStateEvent("popstate"));
        }""",
        f"/{path}",
    )


def pocket(page: Page) -> None:
    """The phone goes into the pocket: its page is gone, and sends nothing."""
    page.goto("about:blank")


def at_turn(page: Page, server: Standing, turn: str) -> None:
    """The screen of the run time, ready to be changed."""
    open_at(page, server, turn)
    expect(page.locator(".stepper-now")).to_be_enabled(timeout=SOON_MS)


def run_for(page: Page, minutes: int) -> None:
    """Set the run time on the screen and keep it."""
    field = page.locator(".stepper-now")
    field.fill(str(minutes))
    field.blur()
    page.get_by_role("button", name=f"Keep {minutes} min").click()
    expect(page.locator(".tray")).to_contain_text(f"Kept {minutes} min")


def keep(page: Page) -> None:
    """What was typed into a form of the site's records."""
    page.locator(".save").get_by_role("button", name=re.compile("^Keep")).click()


def records(server: Standing, table: str, **fields: object) -> list[dict[str, Any]]:
    """Those of a table that have these fields, as the server holds them now."""
    with urllib.request.urlopen(f"{server.address}/api/sites/{SITE}/document", timeout=20) as answer:
        held: list[dict[str, Any]] = json.load(answer)["records"]
    fitting = (one for one in held if all(one.get(name) == value for name, value in fields.items()))
    return [one for one in fitting if one["table"] == table]


def record(server: Standing, table: str, record_id: str) -> dict[str, Any] | None:
    """As the server holds it now."""
    return next(iter(records(server, table, id=record_id)), None)


def leaves(page: Page, server: Standing, table: str, record_id: str) -> None:
    """Until the server has heard from the phone that the record is removed."""
    until = time.monotonic() + SOON_MS / 1000
    while record(server, table, record_id) is not None:
        assert time.monotonic() < until, f"the server never heard that {record_id} is removed"
        page.wait_for_timeout(250)


def arrives(page: Page, server: Standing, table: str, **fields: object) -> dict[str, Any]:
    """The record with these fields, once the phone has sent it."""
    until = time.monotonic() + SOON_MS / 1000
    while time.monotonic() < until:
        if found := records(server, table, **fields):
            return found[0]
        page.wait_for_timeout(250)
    raise AssertionError(f"the server never had {table} with {fields}")


def run_s(server: Standing, turn: str) -> int:
    """The run time of a turn, as the server holds it now."""
    found = record(server, "turns", turn)
    assert found is not None
    return int(found["run_s"])


def line_is_back(page: Page) -> None:
    """The phone's own system tells it so; without that it would find out after a while."""
    page.evaluate("dispatchEvent(new Event('online'))")
