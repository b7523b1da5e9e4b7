"""The nights in which the clock changes: Madrid, Sydney, and Lord Howe's half hour, served by the real server."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.answering import answering
from browser.codes import SITE, code_in
from browser.standing import DEMO
from pengan.web.settings import Settings

pytestmark = pytest.mark.journey

Night = tuple[str, str, list[str], list[str], str]

NIGHTS: list[Night] = [
    # Zone, instant, hours that are written, hours that are not, what the page says of it (IANA time zone database).
    ("Europe/Madrid", "2026-10-24T23:30:00+02:00", ["02¹", "02²"], ["02"], "02:00–03:00 runs twice; ² is the second."),
    ("Europe/Madrid", "2027-03-27T23:30:00+01:00", ["01", "03"], ["02"], "02:00–03:00 is left out: the clock leaps."),
    (
        "Australia/Sydney",
        "2026-10-03T23:30:00+10:00",
        ["01", "03"],
        ["02"],
        "02:00–03:00 is left out: the clock leaps.",
    ),
    (
        "Australia/Sydney",
        "2027-04-03T23:30:00+11:00",
        ["02¹", "02²"],
        ["02"],
        "02:00–03:00 runs twice; ² is the second.",
    ),
    (
        "Australia/Lord_Howe",
        "2026-10-03T23:30:00+10:30",
        ["01", "03"],
        ["02"],
        "02:00–02:30 is left out: the clock leaps.",
    ),
    ("Australia/Lord_Howe", "2027-04-03T23:30:00+11:00", ["01", "02"], [], "01:30–02:00 runs twice; ² is the second."),
]


@contextmanager
def _site_in(zone: str, now: str, folder: Path) -> Iterator[tuple[str, str]]:
    """The demo site moved to another zone, at an instant; its address, and a code to join it: it is no demo now."""
    document = json.loads(DEMO.read_text(encoding="utf-8"))
    document["records"][0]["zone"] = zone
    path = folder / "moved.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    settings = Settings(data=folder, first_document=path, now=datetime.fromisoformat(now), effort=2)
    with answering(settings) as address:
        yield address, code_in(settings, "crew")


def _join(page: Page, code: str) -> dict[str, Any]:
    """By the API; then what the server says of tonight."""
    body = {"code": code, "name": "Bikram Thapa", "device_name": "Phone", "language": "en"}
    sheet: dict[str, Any] = page.evaluate(
        """async ({ body, site }) => {
          const headers = { "content-type": "application/json" };
          await fetch("/api/invitations/join", { method: "POST", headers, body: JSON.stringify(body) });
          return (await fetch(`/api/sites/${site}/nights/tonight`)).json();
        }""",
        {"body": body, "site": SITE},
    )
    return sheet


@pytest.mark.parametrize(("zone", "now", "written", "missing", "said"), NIGHTS)
def test_the_night_in_which_the_clock_changes_is_drawn_rightly(
    browser: Browser, tmp_path: Path, zone: str, now: str, written: list[str], missing: list[str], said: str
) -> None:
    with _site_in(zone, now, tmp_path) as (address, code), browser.new_context(locale="en-GB") as context:
        page = context.new_page()
        page.set_default_timeout(40_000)
        page.goto(f"{address}/?hours=24&language=en")
        sheet = _join(page, code)
        page.reload()
        page.wait_for_selector(".drawing .block")
        hours = page.locator(".hour").all_text_contents()
        assert [hour for hour in written if hour not in hours] == []
        assert [hour for hour in missing if hour in hours] == []
        expect(page.locator(".key-leap")).to_have_text(said)
        assert page.locator(".seam").count() == 2
        _elapsed_time_is_linear(page, sheet)
        _times_are_the_sheets(page, sheet)


def _elapsed_time_is_linear(page: Page, sheet: dict[str, Any]) -> None:
    """An hour that comes twice is two hours wide; one that is left out has no width."""
    starts = {f"{run['turn']}.{run['cycle']}": run["start"] for run in sheet["runs"]}
    drawn: list[list[Any]] = page.evaluate(
        "[...document.querySelectorAll('.block')].map((block) =>"
        " [block.dataset.run, parseFloat(block.querySelector('.block-fill').getAttribute('d').slice(1))])"
    )
    placed = sorted((starts[key], x) for key, x in drawn)
    (first, left), (last, right) = placed[0], placed[-1]
    pace = (right - left) / (last - first)
    assert max(abs(left + (start - first) * pace - x) for start, x in placed) < 0.1


def _times_are_the_sheets(page: Page, sheet: dict[str, Any]) -> None:
    page.locator(".as-table summary").click()
    starts = page.locator(".as-table tbody td:first-child")
    starts.first.wait_for()
    shown = starts.all_inner_texts()
    local = [run["start_local"][11:19].removesuffix(":00") for run in sheet["runs"]]
    assert sorted(one.rstrip("¹²") for one in shown) == sorted(local)
