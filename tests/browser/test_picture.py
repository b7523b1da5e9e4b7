"""The picture: area is volume, time runs the reader's way, and a tap says why."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pengan.engine.message import Message
from pengan.words.names import SiteNames
from pengan.words.reader import Reader
from pengan.words.say import say
from pengan.words.wall import SiteWall

from .conftest import Open, Served


def _area(path: str) -> float:
    """Square pixels inside an outline of horizontal and vertical lines; a rounded corner counts as a square one."""
    corners: list[tuple[float, float]] = []
    x, y, before = 0.0, 0.0, ""
    for letter, numbers in re.findall(r"([MHVA])([^MHVAZ]*)", path):
        values = [float(value) for value in numbers.split()]
        if letter == "A":
            corners.append((x, values[-1]) if before == "V" else (values[-2], y))
        x = values[0] if letter == "H" else values[-2] if letter in "MA" else x
        y = values[-1] if letter in "MAV" else y
        corners.append((x, y))
        before = letter
    closed = [*corners, corners[0]]
    return abs(sum(one[0] * two[1] - two[0] * one[1] for one, two in pairwise(closed))) / 2


@pytest.mark.parametrize(("width", "language"), [(360, "en"), (1440, "en"), (1440, "ar-XB")])
def test_every_blocks_area_is_its_volume_by_one_scale(
    open_page: Open, served: Served, width: int, language: str
) -> None:
    page = open_page(f"language={language}", width=width)
    volumes = {f"{run['turn']}.{run['cycle']}": run["volume_l"] for run in served.sheet["runs"]}
    outlines = page.evaluate(
        "[...document.querySelectorAll('.block')].map((block) =>"
        " [block.dataset.run, block.querySelector('.block-fill').getAttribute('d')])"
    )
    assert sorted(key for key, _ in outlines) == sorted(volumes)
    scale = sum(_area(path) for _, path in outlines) / sum(volumes.values())
    for key, path in outlines:
        # Outlines are written to a hundredth of a pixel; the thinnest blocks are a few pixels high.
        assert _area(path) == pytest.approx(volumes[key] * scale, rel=0.02), key


def test_a_tap_on_a_block_says_why_it_is_there(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    run = max(served.sheet["runs"], key=lambda one: (one["volume_l"], one["turn"], one["cycle"]))
    box = page.locator(f"[data-run='{run['turn']}.{run['cycle']}'] .block-fill").bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    station = served.document.stations[run["station"]]
    expect(page.locator(".why .tag")).to_have_text(station.number)
    expect(page.locator(".rung-why")).to_have_text(_said(served, run["ladder"], "en"))
    expect(page.locator(".rung-decides")).to_have_count(1)
    page.get_by_role("button", name="Close", exact=True).click()
    expect(page.locator(".why")).to_have_count(0)


def _said(served: Served, rungs: list[dict[str, Any]], language: str) -> list[str]:
    reader = Reader(language=language, hour_cycle="24")
    names = SiteNames(served.document, SiteWall(served.clock, served.sheet["starts"], served.sheet["ends"]))
    messages = [Message(rung["why"]["code"], rung["why"]["params"]) for rung in rungs]
    return [say(message, reader, names) for message in messages]


@pytest.mark.parametrize("language", ["en", "es", "en-XA"])
def test_page_and_server_put_every_reason_into_the_same_words(open_page: Open, served: Served, language: str) -> None:
    page = open_page(f"language={language}&units=metric")
    page.locator(".as-table summary").click()
    page.locator(".as-table tbody tr").first.wait_for()
    shown = page.locator(".as-table tbody td:last-child").all_inner_texts()
    expected = _said(served, served.sheet["runs"], language)
    assert sorted(shown) == sorted(expected)


def test_keys_lead_along_the_night(open_page: Open, served: Served) -> None:
    page = open_page()
    page.locator(".block[tabindex='0']").focus()
    page.keyboard.press("Home")
    first = page.locator(".block[aria-selected=true]")
    assert first.get_attribute("data-run") == _first(page)
    page.keyboard.press("ArrowRight")
    expect(page.locator(".block[aria-selected=true]")).not_to_have_attribute("data-run", _first(page))
    expect(page.locator(".block:focus")).to_have_attribute("aria-selected", "true")
    page.keyboard.press("Escape")
    expect(page.locator(".block[aria-selected=true]")).to_have_count(0)


def _first(page: Page) -> str:
    return str(page.locator(".block").first.get_attribute("data-run"))


def test_time_is_mirrored_in_right_to_left_and_tags_are_not(open_page: Open, served: Served) -> None:
    page = open_page("language=ar-XB", width=360, height=740)
    assert page.locator("html").get_attribute("dir") == "rtl"
    runs = sorted(served.sheet["runs"], key=lambda run: run["start"])
    keys = [f"{run['turn']}.{run['cycle']}" for run in (runs[0], runs[-1])]
    boxes = [page.locator(f"[data-run='{key}'] .block-fill").bounding_box() for key in keys]
    assert boxes[0] and boxes[1] and boxes[0]["x"] > boxes[1]["x"]
    hole, tag = page.locator(".next .tag-hole").bounding_box(), page.locator(".next .tag").bounding_box()
    assert hole and tag and hole["x"] < tag["x"] + tag["width"] / 2


def test_closures_limits_seam_now_and_finish_are_drawn(open_page: Open, served: Served) -> None:
    page = open_page()
    for part in (".limit", ".closed", ".seam", ".now-line", ".finish-line", ".twilight-3"):
        assert page.locator(part).count() > 0, part
    hours = page.locator(".hour").all_text_contents()
    assert "01¹" in hours and "01²" in hours


@pytest.mark.parametrize(("width", "height"), [(1440, 1000), (360, 740)])
def test_the_panel_never_hides_the_run_it_speaks_of(open_page: Open, served: Served, width: int, height: int) -> None:
    page = open_page(width=width, height=height)
    lowest = page.evaluate(
        "[...document.querySelectorAll('.block')].reduce((low, block) =>"
        " block.getBoundingClientRect().bottom > low.getBoundingClientRect().bottom ? block : low).dataset.run"
    )
    page.locator(f"[data-run='{lowest}'] .block-fill").click(force=True)
    page.wait_for_function(
        "() => document.querySelector('.selected-frame').getBoundingClientRect().bottom"
        " <= document.querySelector('.why').getBoundingClientRect().top"
    )
    assert page.locator(".selected-frame").bounding_box() is not None


def test_soaks_are_tied_where_somebody_looks_at_a_turn_with_cycles(open_page: Open, served: Served) -> None:
    page = open_page()
    run = next(one for one in served.sheet["runs"] if one["cycles"] == 3 and one["cycle"] == 1)
    page.locator(f"[data-run='{run['turn']}.1']").focus()
    page.keyboard.press("Home")
    while page.locator(".block[aria-selected=true]").get_attribute("data-run") != f"{run['turn']}.1":
        page.keyboard.press("ArrowRight")
    expect(page.locator(".tie-selected")).to_have_count(2)


def test_runs_that_hold_the_finish_have_a_brass_base(open_page: Open, served: Served) -> None:
    page = open_page()
    page.goto(f"{served.address}/tonight/2026-10-27?hours=24")
    expect(page.locator(".room-head p")).to_contain_text("27 Oct", timeout=40_000)
    assert page.locator(".block .chain-base").count() > 1
    held = page.evaluate("[...document.querySelectorAll('.block:has(.chain-base)')].map((one) => one.dataset.run)")
    assert len(set(held)) == len(held)


@pytest.mark.parametrize("language", ["en", "ar-XB"])
def test_a_lane_alone_is_scrolled_at_seventy_pixels_an_hour(open_page: Open, served: Served, language: str) -> None:
    page = open_page(f"language={language}", width=360, height=740)
    page.locator(".lane-choice").last.click()
    expect(page.locator(".lane-caption")).to_contain_text("Lagoon plant")
    starts = {f"{run['turn']}.{run['cycle']}": run["start"] for run in served.sheet["runs"]}
    drawn: list[list[Any]] = page.evaluate(
        "[...document.querySelectorAll('.block')].map((block) => { const box = block.getBoundingClientRect();"
        " return [block.dataset.run, document.dir === 'rtl' ? -box.right : box.left]; })"
    )
    ordered = sorted((starts[key], x) for key, x in drawn)
    (first, left), (last, right) = ordered[0], ordered[-1]
    assert (right - left) / (last - first) * 3600 == pytest.approx(70, abs=1)
    assert page.locator(".now-line").bounding_box() is not None
    now = page.locator(".now-line").bounding_box()
    assert now is not None and 0 < now["x"] < 360, "it opens where the night stands"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.locator(".lane-choice").first.click()
    expect(page.locator(".limit")).to_have_count(3)


def test_a_tap_on_a_lanes_name_opens_it_on_a_phone(open_page: Open, served: Served) -> None:
    page = open_page(width=360, height=740)
    page.locator(".lane-name").nth(1).click(force=True)
    expect(page.locator(".lane-choice[aria-pressed=true]")).to_have_text("Old well")


def test_the_key_for_two_cubic_metres_is_true_to_scale(open_page: Open, served: Served) -> None:
    page = open_page()
    side = float(str(page.locator(".volume-key rect").get_attribute("width")))
    run = max(served.sheet["runs"], key=lambda one: (one["volume_l"], one["turn"], one["cycle"]))
    path = str(page.locator(f"[data-run='{run['turn']}.{run['cycle']}'] .block-fill").get_attribute("d"))
    assert side * side / 2000 == pytest.approx(_area(path) / run["volume_l"], rel=0.02)


def test_on_paper_the_picture_comes_first_and_the_whole_list_after_it(open_page: Open, served: Served) -> None:
    page = open_page()
    page.locator(".as-table").wait_for()
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(page.locator(".as-table tbody tr")).to_have_count(len(served.sheet["runs"]))
    for hidden in (".nights", ".find", ".rooms", ".sync-chip"):
        expect(page.locator(hidden).first).to_be_hidden()
    assert page.locator(".drawing").is_visible()
    expect(page.locator("html")).to_have_attribute("data-light", "sun")
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(page.locator("html")).to_have_attribute("data-light", "day")
    assert page.evaluate("getComputedStyle(document.querySelector('.as-table')).breakBefore") == "page"
