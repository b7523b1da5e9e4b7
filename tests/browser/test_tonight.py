"""The first screen says what the sheet says."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Page, expect

from .conftest import NOW_S, Open, Served


def _keys(runs: list[dict[str, Any]]) -> list[str]:
    return [f"{run['turn']}.{run['cycle']}" for run in runs]


def _rows(page: Page, name: str) -> list[str]:
    found = page.locator(f"[data-list={name}] [data-row]")
    return [str(row.get_attribute("data-row")) for row in found.all()]


def _coming(served: Served) -> list[dict[str, Any]]:
    coming = [run for run in served.sheet["runs"] if run["start"] > NOW_S]
    return sorted(coming, key=lambda run: (run["start"], run["station"], run["cycle"]))


def test_next_water_is_the_sheets_next_run(open_page: Open, served: Served) -> None:
    page, run = open_page(width=360, height=740), _coming(served)[0]
    station = served.document.stations[run["station"]]
    expect(page.locator(".next-time")).to_have_text(run["start_local"][11:16])
    expect(page.locator(".next .tag")).to_have_text(station.number)
    expect(page.locator(".next .place")).to_have_text(station.name)
    expect(page.locator(".next-wait")).to_have_text(f"in {-(-(run['start'] - NOW_S) // 60)} min")


def test_the_lists_hold_every_run_that_is_open_or_to_come_once(open_page: Open, served: Served) -> None:
    page = open_page()
    opened = [run for run in served.sheet["runs"] if run["start"] <= NOW_S < run["end"]]
    assert sorted(_rows(page, "open")) == sorted(_keys(opened))
    coming = _keys(_coming(served))
    assert _rows(page, "next") == coming[:6]
    assert sorted(_rows(page, "later")) == sorted(coming[6:])


def test_times_are_the_sites_in_a_browser_on_the_other_side_of_the_world(open_page: Open, served: Served) -> None:
    page = open_page(zone="Pacific/Auckland")
    page.locator(".as-table summary").click()
    cells = page.locator(".as-table tbody td:first-child").all_inner_texts()
    local = [run["start_local"][11:19].removesuffix(":00") for run in served.sheet["runs"]]
    assert sorted(cell.rstrip("¹²") for cell in cells) == sorted(local)
    assert {cell[-1] for cell in cells if cell.startswith("01:")} == {"¹", "²"}


def test_the_night_before_and_after_are_a_tap_away(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    page.get_by_role("button", name="Night after, Sun 25 Oct").click()
    expect(page.locator(".next-title")).to_have_text("First water")
    expect(page.locator(".head p")).to_contain_text("25 Oct")
    expect(page.locator("[data-list=open]")).to_have_count(0)
    page.get_by_role("button", name="Tonight").click()
    expect(page.locator(".next-title")).to_have_text("Next water")
    page.get_by_role("button", name="Night before, Fri 23 Oct").click()
    expect(page.get_by_role("button", name="Night before, Thu 22 Oct")).to_be_disabled()


def test_minutes_tick_and_the_next_night_comes_at_noon(open_page: Open, served: Served) -> None:
    """The browser's clock is moved by hand; the server says once what time it is."""
    page = open_page(width=360, height=740)
    wait = page.locator(".next-wait")
    before = wait.inner_text()
    page.clock.install()
    answer = {"now": NOW_S, "stands": False}
    page.route("**/api/clock", lambda route: route.fulfill(json=answer))
    page.reload()
    expect(wait).to_have_text(before)
    page.clock.run_for(60_000)
    minutes = -(-(_coming(served)[0]["start"] - NOW_S) // 60)
    expect(wait).to_have_text(f"in {minutes - 1} min")
    answer["now"] = served.sheet["ends"] - 5
    page.reload()
    expect(page.locator(".next-title")).to_have_text("No more water tonight")
    with page.expect_request("**/nights/tonight"):
        page.clock.run_for(7_000)


def test_when_tonight_is_over_the_page_tells_when_water_comes_tomorrow(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    page.route("**/api/clock", lambda route: route.fulfill(json={"now": served.sheet["finish"] + 60, "stands": True}))
    page.reload()
    expect(page.locator(".next-after")).to_contain_text("Next water tomorrow 2")
