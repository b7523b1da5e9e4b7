"""The first screen says what the sheet says."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from .conftest import NOW_S, Open, Served

ON_DEMAND_MS = 40_000
"""A night ahead that nobody asked for yet is worked out then; a busy machine takes its time for it."""


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
    for summary in page.locator(".place-group summary").all():
        summary.click()
    expect(page.locator("[data-list=later] [data-row]")).to_have_count(len(coming) - 6)
    assert sorted(_rows(page, "later")) == sorted(coming[6:])


def test_times_are_the_sites_in_a_browser_on_the_other_side_of_the_world(open_page: Open, served: Served) -> None:
    page = open_page(zone="Pacific/Auckland")
    page.locator(".as-table summary").click()
    page.locator(".as-table tbody tr").first.wait_for()
    cells = page.locator(".as-table tbody td:first-child").all_inner_texts()
    local = [run["start_local"][11:19].removesuffix(":00") for run in served.sheet["runs"]]
    assert sorted(cell.rstrip("¹²") for cell in cells) == sorted(local)
    assert {cell[-1] for cell in cells if cell.startswith("01:")} == {"¹", "²"}


def _night(page: Page, date: str) -> None:
    page.locator(f"[data-night='{date}']").click()


@pytest.mark.journey
def test_each_of_fifteen_nights_is_a_button_away(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    nights = [str(one.get_attribute("data-night")) for one in page.locator("[data-night]").all()]
    assert (nights[0], nights[1], nights[-1], len(nights)) == ("2026-10-23", "2026-10-24", "2026-11-06", 15)
    _night(page, "2026-10-27")
    expect(page.locator(".next-title")).to_have_text("First water")
    expect(page.locator(".room-head p")).to_contain_text("27 Oct", timeout=ON_DEMAND_MS)
    expect(page.locator("[data-list=open]")).to_have_count(0)
    assert page.url.split("?")[0].endswith("/tonight/2026-10-27")
    page.reload()
    expect(page.locator(".room-head p")).to_contain_text("27 Oct", timeout=ON_DEMAND_MS)
    page.get_by_role("button", name="Tonight").and_(page.locator("[data-night]")).click()
    expect(page.locator(".next-title")).to_have_text("Next water")
    expect(page).not_to_have_url(re.compile("tonight"))


def _stroke(page: Page, by: int) -> None:
    """A finger goes over the picture, by so many pixels to the right."""
    box = page.locator(".picture-whole").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + 60
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + by / 2, y, steps=3)
    page.mouse.move(x + by, y + 4, steps=3)
    page.mouse.up()


@pytest.mark.journey
@pytest.mark.parametrize(("language", "onward"), [("en", -1), ("ar-XB", 1)])
def test_a_stroke_over_the_picture_turns_to_the_next_night(
    open_page: Open, served: Served, language: str, onward: int
) -> None:
    """Time runs the other way in right-to-left, and with it the stroke."""
    page = open_page(f"language={language}", width=360, height=740)
    _stroke(page, onward * 120)
    expect(page.locator("[data-night='2026-10-25']")).to_have_attribute("aria-current", "date")
    expect(page.locator(".block[aria-selected=true]")).to_have_count(0)
    _stroke(page, -onward * 120)
    expect(page.locator("[data-night='2026-10-24']")).to_have_attribute("aria-current", "date")


@pytest.mark.parametrize(("language", "onward", "back"), [("en", "Right", "Left"), ("ar-XB", "Left", "Right")])
def test_keys_alone_turn_the_nights(open_page: Open, served: Served, language: str, onward: str, back: str) -> None:
    page = open_page(f"language={language}")
    current = page.locator("[data-night][aria-current=date]")
    page.keyboard.press(f"Arrow{onward}")
    expect(current).to_have_attribute("data-night", "2026-10-25")
    page.keyboard.press(f"Arrow{onward}")
    expect(current).to_have_attribute("data-night", "2026-10-26")
    page.keyboard.press(f"Arrow{back}")
    expect(current).to_have_attribute("data-night", "2026-10-25")
    page.keyboard.press("Home")
    expect(current).to_have_attribute("data-night", "2026-10-24")
    page.keyboard.press(f"Arrow{back}")
    expect(current).to_have_attribute("data-night", "2026-10-23")
    page.keyboard.press(f"Arrow{back}")
    expect(current).to_have_attribute("data-night", "2026-10-23")


@pytest.mark.journey
def test_an_address_that_names_no_night_leads_to_tonight(open_page: Open, served: Served) -> None:
    page = open_page()
    page.goto(f"{served.address}/tonight/soon?hours=24")
    expect(page.locator(".next-title")).to_have_text("Next water")
    expect(page).not_to_have_url(re.compile("soon"))


def _found(page: Page) -> list[str]:
    return [str(one.get_attribute("data-station")) for one in page.locator("[data-list=found] [data-station]").all()]


def test_a_station_is_found_by_number_name_or_part(open_page: Open, served: Served) -> None:
    page, stations = open_page(width=360, height=740), served.document.stations
    field = page.get_by_role("searchbox")
    field.fill("105")
    expect(page.locator("[data-list=found] [data-station]")).to_have_count(1)
    assert _found(page) == [one.id for one in stations.values() if one.number == "105"]
    field.fill("DÚNÈS")
    expect(page.locator("[data-part=Dunes]")).to_have_count(1)
    assert set(_found(page)) == {one.id for one in stations.values() if "dunes" in f"{one.name} {one.part}".lower()}
    field.fill("nothing like this")
    expect(page.locator(".find-count")).to_have_text("No station of that number, name or part.")
    page.get_by_role("button", name="Clear").click()
    expect(page.locator(".find-count")).to_have_count(0)


@pytest.mark.journey
def test_what_is_found_says_when_it_gets_water_or_why_none(open_page: Open, served: Served) -> None:
    page = open_page()
    wet = {run["station"] for run in served.sheet["runs"]}
    run = _coming(served)[0]
    dry = next(one for one in served.document.stations.values() if one.id not in wet)
    page.get_by_role("searchbox").fill(served.document.stations[run["station"]].number)
    fate = page.locator(f"[data-station={run['station']}] .row-fate").first
    minutes = (run["end"] - run["start"]) // 60
    expect(fate).to_have_text(f"Water at {run['start_local'][11:16]}, for {minutes} min.")
    page.get_by_role("searchbox").fill(dry.number)
    expect(page.locator(f"[data-station={dry.id}] .row-fate").first).to_have_text("Not due tonight.")


def test_it_says_until_when_it_is_dry(open_page: Open, served: Served) -> None:
    """A station with one run to come, which lies before six in the morning."""
    coming = _coming(served)
    run = next(one for one in coming[5:] if [other["station"] for other in coming].count(one["station"]) == 1)
    station = served.document.stations[run["station"]]
    page = open_page(width=360, height=740)
    page.get_by_role("searchbox").fill(station.number)
    page.locator(f"[data-station={station.id}]").click()
    start, end = _wall(served, run["start"]), _wall(served, run["end"])
    expect(page.locator(".dry-first")).to_contain_text(f"Dry until {start}, then water for")
    expect(page.locator(".dry-answer")).to_have_text(f"Dry until 06:00? No: {station.number} runs {start}–{end}.")
    page.get_by_label("Dry until").fill(start.rstrip("¹²"))
    expect(page.locator(".dry-answer")).to_have_text(re.compile(r"Yes, by the plan\.$"))
    page.get_by_label("Dry until").fill("half past")
    expect(page.locator(".dry .field-fault")).to_contain_text("half past")
    expect(page.locator(".dry-caution")).to_contain_text("this is the plan, not the valve")


def _wall(served: Served, instant: int) -> str:
    """As the page writes it: ¹ and ² where the wall reads a time twice."""
    before, after = served.clock.wall(instant), 3600
    change = 1_792_890_000
    mark = "¹" if change - after <= instant < change else "²" if change <= instant < change + after else ""
    return f"{before:%H:%M}{mark}"


@pytest.mark.journey
def test_a_part_of_the_grounds_is_dry_when_all_its_stations_are(open_page: Open, served: Served) -> None:
    page = open_page()
    page.get_by_role("searchbox").fill("dunes")
    page.locator("[data-part=Dunes]").click()
    in_part = [
        run
        for run in served.sheet["runs"]
        if served.document.stations[run["station"]].part == "Dunes" and run["end"] > NOW_S
    ]
    spans: list[list[int]] = []
    for run in sorted(in_part, key=lambda one: one["start"]):
        if spans and run["start"] <= spans[-1][1]:
            spans[-1][1] = max(spans[-1][1], run["end"])
        else:
            spans.append([run["start"], run["end"]])
    expect(page.locator(".spell-wet")).to_have_count(len(spans))


@pytest.mark.journey
def test_the_caution_about_reclaimed_water_stands_above_the_lists(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    expect(page.locator(".lists > .caution-line")).to_contain_text("Lagoon plant carries reclaimed water")


def test_minutes_tick_and_the_next_night_comes_at_noon(open_page: Open, served: Served) -> None:
    """The browser's clock is moved by hand; the server says once what time it is."""
    page = open_page(width=360, height=740)
    wait = page.locator(".next-wait")
    before = wait.inner_text()
    page.clock.install()
    answer = {"now": NOW_S, "stands": False}
    page.route("**/api/clock", lambda route: route.fulfill(json=answer))
    with page.expect_response("**/api/clock"):
        page.reload()
    page.wait_for_selector(".as-table", state="attached")  # it comes last: by then the page goes by the answer
    expect(wait).to_have_text(before)
    page.clock.run_for(60_000)
    minutes = -(-(_coming(served)[0]["start"] - NOW_S) // 60)
    expect(wait).to_have_text(f"in {minutes - 1} min")
    answer["now"] = served.sheet["ends"] - 5
    page.reload()
    expect(page.locator(".next-title")).to_have_text("No more water tonight")
    page.clock.run_for(7_000)
    expect(page.locator(".room-head p")).to_contain_text("26 Oct", timeout=ON_DEMAND_MS)


@pytest.mark.journey
def test_when_tonight_is_over_the_page_tells_when_water_comes_tomorrow(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    page.route("**/api/clock", lambda route: route.fulfill(json={"now": served.sheet["finish"] + 60, "stands": True}))
    page.reload()
    expect(page.locator(".next-after")).to_contain_text("Next water tomorrow 2", timeout=ON_DEMAND_MS)
