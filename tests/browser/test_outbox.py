"""What was kept outlasts whatever comes between: an ended session, a login page, a full disk, a second tab."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from browser.answering import answering
from browser.codes import code_in, let_in
from browser.crew import in_step, phone
from browser.edits import SOON_MS, at_turn, line_is_back, open_at, pocket, run_for, run_s
from browser.kept import keep_all
from browser.standing import Standing, portal_in_place_of
from pengan.web.settings import Settings

from .conftest import TOO_LITTLE_MEMORY

pytestmark = pytest.mark.journey

PASSWORD = "seven pelicans on a quay"


@pytest.fixture
def ines(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    """The phone of a manager who has a password; it has no memory for the planner, which is not asked here."""
    with phone(browser, cut_off=True) as context:
        context.add_init_script(TOO_LITTLE_MEMORY)
        let_in(context, server, "manager", "Inês Falcão")
        yield context


def unsent_is(page: Page, count: int) -> None:
    expect(page.locator(".banner-line")).to_contain_text(f"{count} unsent edit", timeout=SOON_MS)


def turn_of(station: int) -> str:
    """Of a station of the western meadow."""
    return f"stations/s{station}/turn/p-e-s{station}"


def all_times_changed(page: Page, percent: str) -> None:
    """Sixteen edits at once, on the screen of the stations."""
    page.get_by_role("button", name="Choose several").click()
    page.get_by_role("button", name="Choose all of North meadow").click()
    page.get_by_role("button", name="Change run times").click()
    page.get_by_role("button", name=percent).click()
    page.get_by_role("button", name="Keep 16 new times").click()
    expect(page.locator(".tray")).to_contain_text("Kept new run times for 16 turns.")


def test_edits_outlast_an_ended_session_and_go_only_with_their_own_person(
    browser: Browser, ines: BrowserContext, server: Standing
) -> None:
    named = {"name": "ines", "password": PASSWORD}
    assert ines.request.put(f"{server.address}/api/session/password", data=named).status == 204
    person = ines.request.get(f"{server.address}/api/session").json()["person"]
    page = ines.new_page()
    open_at(page, server, "stations")
    in_step(page)
    keep_all(page)
    before = run_s(server, "p-d-s102")
    server.stop()
    all_times_changed(page, "10 percent less")
    unsent_is(page, 16)
    pocket(page)

    server.start()
    end_devices(browser, server, person)
    open_at(page, server, "changes")
    expect(page.locator(".banner-line")).to_have_text(
        "Signed out. 16 unsent edits are safe on this phone, and wait until Inês Falcão signs in.Sign in",
        timeout=SOON_MS,
    )
    assert run_s(server, "p-d-s102") == before

    let_in(ines, server, "lead", "Bikram Thapa")
    open_at(page, server, "changes")
    expect(page.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    at_turn(page, server, "stations/s401/turn/p-a-s401")
    run_for(page, 21)
    expect(page.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
    assert (run_s(server, "p-a-s401"), run_s(server, "p-d-s102")) == (21 * 60, before)

    assert ines.request.delete(f"{server.address}/api/session").status == 204
    open_at(page, server, "join/sign-in")
    page.get_by_label("Sign-in name").fill("ines")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.locator("form").get_by_role("button", name="Sign in").click()
    expect(page).not_to_have_url(re.compile("join"), timeout=SOON_MS)
    open_at(page, server, "changes")
    expect(page.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    assert run_s(server, "p-d-s102") == round(before * 0.9 / 60) * 60


def end_devices(browser: Browser, server: Standing, person: str) -> None:
    """As a manager does who is told that a phone is lost."""
    with phone(browser) as desk:
        let_in(desk, server, "manager", "Tiago Nóvoa")
        theirs = f"{server.address}/api/people/{person}/devices"
        for device in desk.request.get(theirs).json():
            assert desk.request.delete(f"{theirs}/{device['id']}").status == 204


def test_a_login_page_in_the_servers_place_takes_nothing_and_gets_nothing(
    ines: BrowserContext, server: Standing
) -> None:
    page = ines.new_page()
    at_turn(page, server, turn_of(110))
    keep_all(page)
    with portal_in_place_of(server):
        run_for(page, 37)
        line_is_back(page)
        unsent_is(page, 1)
        expect(page.locator(".tray")).to_contain_text("Saved on this phone. Unsent.")
        open_at(page, server, turn_of(110))
        expect(page.locator(".stepper-now")).to_have_value("37")
        unsent_is(page, 1)
    server.start()
    line_is_back(page)
    expect(page.locator(".badge")).to_have_count(0, timeout=SOON_MS)
    assert run_s(server, "p-e-s110") == 37 * 60


def test_where_storing_fails_the_screen_says_so_and_calls_nothing_saved(ines: BrowserContext, server: Standing) -> None:
    ines.add_init_script(NO_ROOM)
    page = ines.new_page()
    at_turn(page, server, turn_of(111))
    before = run_s(server, "p-e-s111")
    page.evaluate("window.noRoom = true")
    page.locator(".stepper-now").fill("38")
    page.get_by_role("button", name="Keep 38 min").click()
    expect(page.locator(".keep-words")).to_contain_text("This phone could not store the edit.")
    expect(page.locator(".stepper-now")).to_have_value("38")
    assert page.get_by_text("Saved on this phone").count() == 0
    assert page.locator(".tray[data-empty=false]").count() == 0
    assert run_s(server, "p-e-s111") == before
    page.evaluate("window.noRoom = false")
    page.get_by_role("button", name="Keep 38 min").click()
    expect(page.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
    assert run_s(server, "p-e-s111") == 38 * 60


NO_ROOM = """
for (const name of ["put", "add"]) {
  const does = IDBObjectStore.prototype[name];
  IDBObjectStore.prototype[name] = function (...given) {
    if (window.noRoom) throw new DOMException("no room", "QuotaExceededError");
    return does.apply(this, given);
  };
}
"""
"""As on a phone whose disk is full."""


def test_two_tabs_hold_the_same_and_send_each_edit_once(ines: BrowserContext, server: Standing) -> None:
    one, other = ines.new_page(), ines.new_page()
    at_turn(one, server, turn_of(112))
    at_turn(other, server, turn_of(112))
    keep_all(one)
    server.stop()
    run_for(one, 39)
    expect(other.locator(".stepper-now")).to_have_value("39")
    run_for(other, 40)
    expect(one.locator(".stepper-now")).to_have_value("40")
    for tab in (one, other):
        expect(tab.locator(".banner-line")).to_contain_text("safe on this phone", timeout=SOON_MS)
    server.start()
    for tab in (one, other):
        line_is_back(tab)
    for tab in (one, other):
        expect(tab.locator(".badge")).to_have_count(0, timeout=SOON_MS)
    assert run_s(server, "p-e-s112") == 40 * 60
    open_at(one, server, "changes/history")
    acts = one.locator("[data-act]", has_text="112 Meadow west, ditch")
    expect(acts.first).to_contain_text("→ 40 min", timeout=SOON_MS)
    assert acts.filter(has_text="→ 40 min").count() == 1


def test_keys_alone_change_keep_and_take_back(ines: BrowserContext, server: Standing) -> None:
    page = ines.new_page()
    page.set_viewport_size({"width": 1280, "height": 900})
    open_at(page, server, "stations")
    in_step(page)
    before = run_s(server, "p-e-s113")
    to(page.get_by_label("Find by number, name, part or hydrozone"))
    page.keyboard.type("113")
    expect(page.locator(".virtual-row")).to_have_count(1)
    to(page.locator(".virtual-row button"))
    page.keyboard.press("Enter")
    page.wait_for_url("**/stations/s113?*")
    to(page.locator(".station-body .row", has_text="Meadow west"))
    page.keyboard.press("Enter")
    to(page.locator(".stepper-now"))
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    to(page.get_by_role("button", name=f"Keep {before // 60 + 2} min"))
    page.keyboard.press("Enter")
    expect(page.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
    assert run_s(server, "p-e-s113") == before + 120
    to(page.get_by_role("button", name="Undo"))
    page.keyboard.press("Enter")
    expect(page.locator(".stepper-now")).to_have_value(str(before // 60))
    expect(page.locator(".badge")).to_have_count(0, timeout=SOON_MS)
    assert run_s(server, "p-e-s113") == before


def to(wanted: Locator) -> None:
    """By the tabulator alone, and no further than once around the page."""
    wanted.wait_for()
    for _ in range(120):
        wanted.page.keyboard.press("Tab")
        if wanted.evaluate("(one) => one === document.activeElement"):
            return
    raise AssertionError(f"the key never came to {wanted}")


def test_an_empty_site_leads_through_its_first_steps(browser: Browser, tmp_path: Path) -> None:
    empty = tmp_path / "site.json"
    empty.write_text(EMPTY, encoding="utf-8")
    settings = Settings(data=tmp_path, first_document=empty, effort=2)
    with answering(settings) as address, phone(browser) as context:
        body = {"code": code_in(settings, "manager"), "name": "Inês Falcão", "language": "en", "device_name": "Desk"}
        assert context.request.post(f"{address}/api/invitations/join", data=body).status == 201
        context.add_init_script(TOO_LITTLE_MEMORY)
        page = context.new_page()
        page.goto(address)
        expect(page.get_by_role("heading", name="This site has no stations yet")).to_be_visible()
        page.get_by_role("button", name="First steps").click()
        expect(page.locator(".step", has_text="Not there yet")).to_have_count(7)
        page.get_by_role("button", name="Supplies: Add one").click()
        page.get_by_label("Name").fill("Main by the gate")
        page.get_by_label("Flow limit").fill("120")
        page.locator(".save").get_by_role("button", name="Keep").click()
        expect(page.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
        page.goto(f"{address}/more/first-steps")
        expect(page.locator(".step", has_text="Done: 1 record")).to_have_count(1)
        expect(page.locator(".step-next")).to_contain_text("Controllers")


EMPTY = """{"format": 1, "records": [
  {"table": "site", "id": "quinta-das-mares", "name": "Quinta das Marés", "zone": "Europe/Lisbon"}
]}"""
