"""The journal and the alarms on a phone: told without a server and taken once; seen by two; in Arabic, narrow."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.conftest import NOW_S, TOO_LITTLE_MEMORY
from browser.crew import phone
from browser.edits import SOON_MS, open_at
from browser.kept import keep_all
from browser.standing import Standing
from pengan.engine.journal.finding import TOO_MUCH
from pengan.web.alarms.models import Alarm, Watched
from pengan.web.database import Database
from pengan.web.settings import Settings

pytestmark = pytest.mark.journey

SUPPLY, STATION = "dune-loop", "s102"
NOTE = "Wet around the valve box, nothing sprays"


@pytest.fixture
def ines(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    yield from someone(browser, server, "Inês Falcão")


@pytest.fixture
def bikram(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    yield from someone(browser, server, "Bikram Thapa")


def someone(browser: Browser, server: Standing, name: str) -> Iterator[BrowserContext]:
    with phone(browser, cut_off=True) as context:
        context.add_init_script(TOO_LITTLE_MEMORY)
        let_in(context, server, "lead", name)
        yield context


def notes(context: BrowserContext, server: Standing) -> list[dict[str, Any]]:
    """As the server has them."""
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/journal?kind=note")
    assert answer.ok, answer.text()
    found: list[dict[str, Any]] = answer.json()["entries"]
    return found


def row_of(page: Page, text: str) -> Locator:
    return page.locator(".entry", has_text=text)


def plant_alarm(server: Standing, alarm_id: str) -> None:
    """An alarm as the watch would have written it: more water than the open stations take."""
    since = NOW_S - 1800
    said = TOO_MUCH(supply=SUPPLY, size_lpm=38.5, since_at=since)
    culprit = {"cause": "break", "sure": 0.8, "size_lpm": 38.5, "station": STATION, "supply": None, "controller": None}
    other = {**culprit, "sure": 0.2, "station": "s103"}
    database = Database(Settings(data=server.folder).database_url)
    with database.session() as session, session.begin():
        watched = session.get(Watched, SITE) or Watched(site=SITE, changes=0)
        watched.changes = (watched.changes or 0) + 1
        session.add(watched)
        session.add(
            Alarm(
                site=SITE, id=alarm_id, change=watched.changes, night="2026-10-24", last_night="2026-10-24", times=1,
                finding=f"too_much:{SUPPLY}:{alarm_id}", kind="too_much", gravity=3, supply=SUPPLY, controller=None,
                station=STATION, size_lpm=38.5, said=json.dumps(said.as_json()), opened_at=since + 120,
                spells=json.dumps({"2026-10-24": [[since, since + 120, None]]}),
                culprits=json.dumps([culprit, other]), trial=json.dumps([STATION, "s103"]),
            )
        )  # fmt: skip
    database.engine.dispose()


def test_a_note_written_without_a_server_is_taken_once(ines: BrowserContext, server: Standing) -> None:
    page = ines.new_page()
    open_at(page, server, f"more/journal/station/{STATION}")
    expect(page.get_by_role("button", name="Write a note")).to_be_visible(timeout=SOON_MS)
    keep_all(page)
    server.stop()
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("A note for the journal").fill(NOTE)
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    expect(row_of(page, NOTE)).to_contain_text("Unsent")
    page.reload()
    expect(row_of(page, NOTE)).to_contain_text("Unsent", timeout=SOON_MS)

    server.start()
    expect(row_of(page, NOTE).get_by_text("Unsent")).to_have_count(0, timeout=2 * SOON_MS)
    expect(row_of(page, NOTE)).to_have_count(1)
    assert [(entry["text"], entry["station"]) for entry in notes(ines, server)] == [(NOTE, STATION)]
    page.reload()
    expect(row_of(page, NOTE)).to_have_count(1, timeout=SOON_MS)


def test_an_alarm_is_seen_by_two_and_each_reads_of_the_other(
    ines: BrowserContext, bikram: BrowserContext, server: Standing
) -> None:
    server.start()
    plant_alarm(server, "a-seen-by-two")
    for context in (ines, bikram):
        page = context.new_page()
        open_at(page, server, "")
        strip = page.locator(".alarm-strip")
        expect(strip).to_contain_text("38.5 L/min more", timeout=SOON_MS)
        assert below(strip, page.locator(".next-time")), "the next water stays above it"
        expect(page.locator(".room-link", has_text="Tonight")).to_contain_text("1 alarm")
        strip.get_by_role("button", name="I have seen it").click()
        expect(strip.get_by_role("button", name="I have seen it")).to_have_count(0)
    strip.get_by_role("button", name="Look at it").click()
    people = page.locator(".alarm-people")
    expect(people).to_contain_text("Inês Falcão saw it", timeout=SOON_MS)
    expect(people).to_contain_text("Bikram Thapa, you saw it")
    expect(page.locator(".culprit")).to_have_count(2)
    expect(page.locator(".alarm-trial")).to_contain_text("To tell them apart")
    expect(page.locator(".caution-line")).to_contain_text("Caution: water under pressure")
    assert flaws(page) == []

    page.get_by_role("button", name="Say what it was").click()
    page.get_by_label("Somebody works there").check()
    page.get_by_label("In your own words").fill("Flushing the loop")
    page.get_by_role("button", name="Say so").click()
    expect(people).to_contain_text("Flushing the loop")
    page.get_by_role("button", name="It is over").click()
    expect(page.locator(".alarm-head")).to_contain_text("Over since")
    expect(page.locator(".room-count")).to_have_count(0)
    other = ines.pages[0]
    expect(other.locator(".alarm-strip")).to_have_count(0, timeout=2 * SOON_MS)


def test_without_a_server_the_last_known_alarm_stands_with_its_time_and_what_is_done_about_it_waits(
    ines: BrowserContext, server: Standing
) -> None:
    server.start()
    plant_alarm(server, "a-out-of-reach")
    page = ines.new_page()
    open_at(page, server, "")
    expect(page.locator(".alarm-strip")).to_be_visible(timeout=SOON_MS)
    keep_all(page)
    server.stop()
    page.reload()
    strip = page.locator(".alarm-strip")
    expect(strip).to_contain_text("newer alarms need signal", timeout=SOON_MS)
    strip.get_by_role("button", name="I have seen it").click()
    expect(strip.get_by_role("button", name="I have seen it")).to_have_count(0)
    server.start()
    path = f"{server.address}/api/sites/{SITE}/journal?kind=alarm_seen&alarm=a-out-of-reach"
    page.wait_for_function(
        "path => fetch(path).then((answer) => answer.json()).then(({ entries }) => entries.length === 1, () => false)",
        arg=path,
        timeout=2 * SOON_MS,
    )


def test_in_arabic_the_strip_and_the_journal_fit_a_narrow_phone(ines: BrowserContext, server: Standing) -> None:
    server.start()
    plant_alarm(server, "a-in-arabic")
    page = ines.new_page()
    page.set_viewport_size({"width": 320, "height": 700})
    for path in ("", "more/journal", "more/alarms", "more/alarms/a-in-arabic"):
        page.goto(f"{server.address}/{path}?language=ar")
        page.locator(".alarm-strip, .journal, .alarms").first.wait_for(timeout=SOON_MS)
        assert page.evaluate("document.documentElement.dir") == "rtl"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
        assert flaws(page) == [], path


def below(one: Locator, other: Locator) -> bool:
    upper, lower = other.bounding_box(), one.bounding_box()
    assert upper and lower
    return upper["y"] + upper["height"] <= lower["y"]
