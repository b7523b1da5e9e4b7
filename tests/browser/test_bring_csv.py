"""A CSV file brought into the journal by a lead on a phone: read by its headings, each faulty line with its reason."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.conftest import TOO_LITTLE_MEMORY
from browser.crew import phone
from browser.edits import SOON_MS, open_at
from browser.standing import Standing

pytestmark = pytest.mark.journey

GOOD = "Time;Reading;Colour\n2026-07-01 08:00;5;red\n2026-07-02 08:00;6,5;red\nsome day;x;red\n"


@pytest.fixture
def ines(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    with phone(browser) as context:
        context.add_init_script(TOO_LITTLE_MEMORY)
        let_in(context, server, "lead", "Inês Falcão")
        yield context


def choose(page: Page, content: str, name: str = "meter.csv") -> None:
    file = {"name": name, "mimeType": "text/csv", "buffer": content.encode()}
    page.locator("input[type=file]").set_input_files(file)  # type: ignore[arg-type]
    expect(page.get_by_text(name)).to_be_visible()


def test_a_meters_readings_are_brought_in_once_and_faulty_lines_named(ines: BrowserContext, server: Standing) -> None:
    server.start()
    page = ines.new_page()
    open_at(page, server, "more/journal")
    page.get_by_role("button", name="Bring in a CSV file").click(timeout=SOON_MS)
    choose(page, GOOD)
    page.get_by_label("What “Time” holds").select_option(label="When it happened")
    page.get_by_label("What “Reading” holds").select_option(label="A meter’s counter")
    page.get_by_label("The unit of its counters").select_option(label="m³")
    page.get_by_label("What each line tells of").select_option(label="A meter’s counter")
    page.get_by_label("The supply that each line is about").select_option(index=1)
    assert flaws(page) == []
    page.get_by_role("button", name="Bring it in").click()
    became = page.get_by_role("region", name="What became of it")
    expect(became).to_contain_text("2 entries taken", timeout=SOON_MS)
    expect(became).to_contain_text("Columns that are not read: Colour")
    expect(became.locator(".aside-line")).to_have_count(1)
    expect(became.locator(".aside-line")).to_contain_text("Line 4")
    expect(became.locator(".aside-line")).to_contain_text("some day")
    assert flaws(page) == []
    page.get_by_role("button", name="Bring it in").click()
    expect(became).to_contain_text("2 were known already", timeout=SOON_MS)
    answer = ines.request.get(f"{server.address}/api/sites/{SITE}/journal?kind=count&order=oldest")
    assert [one["count_l"] for one in answer.json()["entries"]] == [5000, 6500]


def test_half_a_file_is_refused_and_nothing_of_it_taken(ines: BrowserContext, server: Standing) -> None:
    server.start()
    page = ines.new_page()
    open_at(page, server, "more/journal/bring")
    choose(page, 'at,kind,text\n2026-07-01 08:00,note,Wet\n2026-07-01 08:05,note,"half a te')
    page.get_by_role("button", name="Bring it in").click()
    expect(page.get_by_role("alert")).to_contain_text("From line 3 on this is no CSV", timeout=SOON_MS)
    answer = ines.request.get(f"{server.address}/api/sites/{SITE}/journal?kind=note")
    assert answer.json()["entries"] == []
