"""Help where it is needed: a short text in every room, first steps, lost phones, cautions."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, expect

from browser.crew import come_in, in_step, open_at, phone
from browser.standing import Standing

pytestmark = pytest.mark.journey

ROOMS = {
    "": "water comes next",
    "stations": "station",
    "ahead": "fourteen nights",
    "changes": "Unsent",
    "more": "settings",
}


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    made = Standing(tmp_path_factory.mktemp("help"))
    made.start()
    yield made
    made.stop()


@pytest.mark.parametrize("room", ROOMS)
def test_every_room_has_a_short_text_of_its_own(browser: Browser, server: Standing, room: str) -> None:
    with phone(browser) as context:
        page = open_at(context, server, room)
        button = page.get_by_role("button", name="Help", exact=True).first
        expect(button).to_have_attribute("aria-expanded", "false")
        button.click()
        panel = page.locator(".help-panel")
        expect(panel).to_contain_text(ROOMS[room])
        panel.get_by_role("button", name="Close").click()
        expect(panel).to_have_count(0)


def test_first_steps_are_ticked_off_from_the_site_and_lead_to_its_records(browser: Browser, server: Standing) -> None:
    with phone(browser) as context:
        in_step(come_in(context, server, "manager", "Inês Falcão"))
        page = open_at(context, server, "more/first-steps")
        steps = page.locator(".step")
        expect(steps).to_have_count(7)
        expect(page.locator(".step", has_text="Done:")).to_have_count(7)
        page.get_by_role("button", name="Supplies: Add one").click()
        assert page.url == f"{server.address}/site/supplies/new"


def test_who_may_not_change_anything_is_not_asked_to(browser: Browser, server: Standing) -> None:
    with phone(browser) as context:
        in_step(come_in(context, server, "crew", "Salma Haddad"))
        page = open_at(context, server, "more/first-steps")
        expect(page.locator(".step")).to_have_count(7)
        expect(page.locator(".step button")).to_have_count(0)
        page = open_at(context, server, "more/lost-phone")
        expect(page.locator(".more-page")).to_contain_text("tell a manager")
        expect(page.get_by_role("button", name="Team", exact=True)).to_have_count(0)


def test_cautions_name_water_pressure_and_electricity_and_defer_to_licensed_practice(
    browser: Browser, server: Standing
) -> None:
    with phone(browser) as context:
        page = open_at(context, server, "more/cautions")
        expect(page.locator(".help-caution")).to_have_count(5)
        for word in ("pressure", "24 V", "Reclaimed water", "licensed people", "Local codes"):
            expect(page.locator(".more-page")).to_contain_text(word)
