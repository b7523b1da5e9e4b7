"""What tests of edits do on a phone, and what they ask of the server about them."""

from __future__ import annotations

import json
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


def record(server: Standing, table: str, record_id: str) -> dict[str, Any] | None:
    """As the server holds it now."""
    with urllib.request.urlopen(f"{server.address}/api/sites/{SITE}/document", timeout=20) as answer:
        records = json.load(answer)["records"]
    return next((one for one in records if (one["table"], one["id"]) == (table, record_id)), None)


def run_s(server: Standing, turn: str) -> int:
    """The run time of a turn, as the server holds it now."""
    found = record(server, "turns", turn)
    assert found is not None
    return int(found["run_s"])


def line_is_back(page: Page) -> None:
    """The phone's own system tells it so; without that it would find out after a while."""
    page.evaluate("dispatchEvent(new Event('online'))")
