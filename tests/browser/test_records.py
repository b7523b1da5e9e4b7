"""The site's records changed on a phone: with the server and, really stopped, without it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.edits import arrives, go_to, keep, leaves, records
from browser.joining import phone_at
from browser.kept import keep_all
from browser.standing import Standing

pytestmark = pytest.mark.journey

PLANNED_MS = 90_000
"""The planner is fetched and starts in the background; nothing else waits for it."""


@pytest.fixture
def phone(browser: Browser, server: Standing) -> Iterator[Page]:
    """A lead's phone that has the site; the server runs."""
    with phone_at(browser, server, "site", "lead") as page:
        yield page


def test_adds_a_program_with_a_turn_without_the_server_and_sees_its_effect(phone: Page, server: Standing) -> None:
    page = phone
    go_to(page, "site/programs/p-c")
    page.get_by_label("Seasonal percentage", exact=True).fill("90")
    expect(page.locator(".effect-known")).to_be_visible(timeout=PLANNED_MS)
    page.locator(".save").get_by_role("button", name="Put back").click()
    keep_all(page)
    server.stop()
    go_to(page, "site/programs")
    page.get_by_role("button", name="Add a program").click()
    page.get_by_label("Name").fill("Orchard, young trees")
    page.get_by_role("button", name="Choose a station").click()
    page.get_by_label("Search: Add a station").fill("old oak")
    page.locator(".chooser-option").first.click()
    page.get_by_label("Run time").fill("25")
    expect(page.locator(".effect-known")).to_be_visible(timeout=PLANNED_MS)
    keep(page)
    expect(page.get_by_text("Added Orchard, young trees.")).to_be_visible()
    expect(page.locator(".state-line")).to_have_text(re.compile("^Saved on this phone"))
    server.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    program = arrives(page, server, "programs", name="Orchard, young trees")
    turn = arrives(page, server, "turns", program=program["id"])
    assert (turn["station"], turn["run_s"]) == ("s102", 1500)
    expect(page.locator(".state-line")).to_have_text("In force")


def test_removes_a_station_with_all_that_speaks_of_it_and_undoes_it(phone: Page, server: Standing) -> None:
    page = phone
    before = [arrives(page, server, "turns", station="s301"), arrives(page, server, "apart", station="s301")]
    go_to(page, "site/stations/s301")
    expect(page.get_by_text("1 pair kept apart").first).to_be_visible()
    page.locator(".record-actions").get_by_role("button", name="Remove").click()
    expect(page.get_by_role("heading", name="Stations")).to_be_visible()
    expect(page.get_by_text("139 stations")).to_be_visible()
    leaves(page, server, "stations", "s301")
    assert records(server, "turns", station="s301") == []
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("140 stations")).to_be_visible()
    arrives(page, server, "stations", id="s301")
    assert [arrives(page, server, str(one["table"]), station="s301") for one in before] == before


def test_changes_a_windows_hours_as_one_edit(phone: Page, server: Standing) -> None:
    page = phone
    go_to(page, "site/windows/w-reclaimed")
    page.get_by_label("Opens, time").fill("22:00")
    page.get_by_label("Closes, time").fill("5:30")
    button = page.locator(".save").get_by_role("button", name="Keep 1 edit")
    button.click()
    found = arrives(page, server, "windows", id="w-reclaimed", opens="22:00")
    assert found["closes"] == "05:30"
    assert found["supply"] == "lagoon"


def test_tells_every_fault_at_once_with_the_names_of_its_fields(phone: Page) -> None:
    page = phone
    go_to(page, "site/stations/new")
    page.get_by_label("Area watered").fill("2000000")
    keep(page)
    faults = page.locator(".save-faults li")
    expect(faults).to_have_count(5)
    said = " | ".join(faults.all_inner_texts())
    for name in ("Number", "Name", "Supply", "Flow", "Area watered"):
        assert name in said
    assert "100 ha" in said
    page.reload()
    expect(page.get_by_role("heading", name="New station")).to_be_visible()


def test_those_who_may_not_edit_read_everything_and_write_notes(browser: Browser, server: Standing) -> None:
    with phone_at(browser, server, "site/supplies/well", "crew", "Bikram Thapa") as page:
        expect(page.get_by_text("You can read this and write notes.")).to_be_visible()
        expect(page.get_by_label("Flow limit")).to_be_disabled()
        expect(page.get_by_role("button", name="Remove")).to_have_count(0)
        page.get_by_role("textbox", name="Notes").fill("Level read on Monday: 4 m.")
        keep(page)
        arrives(page, server, "supplies", id="well", notes="Level read on Monday: 4 m.")
