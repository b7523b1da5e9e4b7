"""What was used: a night that was told of, put together in four ways, taken along, and kept for later."""

from __future__ import annotations

import io
import time
from collections.abc import Iterator
from datetime import datetime

import pytest
from openpyxl import load_workbook
from playwright.sync_api import Browser, Page, expect

from browser.axe import flaws
from browser.codes import SITE
from browser.edits import open_at
from browser.joining import joined_phone
from browser.standing import NOW, Standing
from pengan.web.database import Database
from pengan.web.journal.made_up import play_on
from pengan.web.used.reckoning import reckon_due

AT = int(datetime.fromisoformat(NOW).timestamp())


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    """Last night the made-up field told of everything, and it was reckoned up."""
    standing = Standing(tmp_path_factory.mktemp("used"))
    standing.start()
    database = Database(f"sqlite:///{standing.folder / 'pengan.sqlite3'}")
    with database.session() as session:
        assert play_on(session, AT, 4) > 0
        assert reckon_due(session, AT, 1) == 1
    database.engine.dispose()
    yield standing
    standing.stop()


@pytest.fixture(scope="module")
def crew(browser: Browser, server: Standing) -> Iterator[Page]:
    with joined_phone(browser, server, "crew") as page:
        yield page


@pytest.fixture
def phone(crew: Page, server: Standing) -> Page:
    server.start()
    return crew


@pytest.mark.journey
def test_a_night_is_read_in_four_ways_and_taken_along(phone: Page, server: Standing) -> None:
    open_at(phone, server, "more")
    phone.get_by_role("button", name="What was used").click()
    slab = phone.locator(".used-slab")
    expect(slab).to_contain_text("1 night, told of by its valves.")
    expect(slab).to_contain_text("Unaccounted for, by the meters")
    expect(phone.locator(".used-line")).to_have_count(1)
    expect(phone.locator(".used-line")).to_contain_text("October")
    expect(phone.locator(".used tbody tr")).to_have_count(11)
    expect(phone.get_by_role("region", name="Why it did not come")).to_contain_text("No power")

    phone.get_by_role("radio", name="Supply").check()
    expect(phone.locator(".used-line").filter(has_text="Upper terrace line").locator(".used-lost")).to_be_visible()
    expect(phone.get_by_role("region", name="As a table")).to_contain_text("Dune loop")
    drips = phone.locator("[data-supply='glass-main']")
    expect(drips).to_contain_text("unaccounted for")
    phone.get_by_role("radio", name="Program").check()
    expect(phone.locator(".used-line").first).to_be_visible()

    links = phone.locator(".used-files a")
    table, book = (phone.request.get(f"{server.address}{links.nth(place).get_attribute('href')}") for place in (0, 1))
    assert table.ok and table.text().startswith("key,name,planned_l,delivered_l")
    assert load_workbook(io.BytesIO(book.body())).sheetnames == ["Water", "Meters", "Faults"]
    assert flaws(phone) == []


@pytest.mark.journey
def test_without_signal_the_last_answer_stays_and_says_from_when_it_is(phone: Page, server: Standing) -> None:
    open_at(phone, server, "more/used/2026/hydrozone")
    expect(phone.locator(".used-line").first).to_be_visible()
    came = phone.locator(".used-came").inner_text()
    server.stop()
    open_at(phone, server, "more/used/2026/hydrozone")
    expect(phone.locator(".used-came")).to_have_text(came)
    expect(phone.locator(".more-alert")).to_contain_text("This needs signal. You see it as of")


@pytest.mark.journey
def test_a_meter_is_read_without_signal_and_in_the_journal_once_the_server_is_back(
    phone: Page, server: Standing
) -> None:
    open_at(phone, server, "more/used")
    phone.locator(".used-slab").wait_for()
    server.stop()
    phone.get_by_text("Read a meter").click()
    phone.get_by_label("The meter of").select_option(label="Old well")
    phone.get_by_label("Its counter shows").fill("4021.537")
    phone.get_by_role("button", name="Write it down").click()
    expect(phone.locator(".used-reading > [role=status]")).to_contain_text("Saved on this phone.")
    expect(phone.get_by_label("Its counter shows")).to_have_value("")
    server.start()
    address = f"{server.address}/api/sites/{SITE}/journal?kind=count&limit=50"

    def counts() -> list[float]:
        entries = phone.request.get(address).json()["entries"]
        return [one["count_l"] for one in entries if one["by"].startswith("person:")]

    phone.reload()
    until = time.monotonic() + 60
    while not counts() and time.monotonic() < until:
        phone.wait_for_timeout(250)
    assert counts() == [4_021_537]


@pytest.mark.journey
def test_a_year_without_nights_says_so(phone: Page, server: Standing) -> None:
    open_at(phone, server, "more/used/2025")
    expect(phone.locator(".used-slab")).to_contain_text("No night of this year is over and reckoned up yet.")
    expect(phone.get_by_role("button", name="2026")).to_be_enabled()
    phone.get_by_role("button", name="2026").click()
    expect(phone.get_by_role("button", name="2027")).to_be_disabled()


@pytest.mark.journey
def test_in_arabic_bars_begin_at_the_right(phone: Page, server: Standing) -> None:
    phone.goto(f"{server.address}/more/used/2026/supply?language=ar")
    bar = phone.locator(".used-bar").first
    bar.wait_for()
    part, whole = bar.locator(".used-part").first.bounding_box(), bar.bounding_box()
    assert part and whole
    assert part["x"] + part["width"] == pytest.approx(whole["x"] + whole["width"], abs=1)
    assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert flaws(phone) == []
    phone.goto(f"{server.address}/more?language=en")
