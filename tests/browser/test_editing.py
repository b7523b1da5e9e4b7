"""Run times changed on a phone, with and without the server: the effect first, then kept, sent and in force."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.edits import line_is_back, open_at, record, run_s
from browser.joining import joined_phone
from browser.standing import Standing

PLANNED_MS = 90_000
"""The planner is fetched and starts in the background; nothing else waits for it."""

TURN = "stations/s101/turn/p-d-s101"
WAS_MIN = 90
"""The run time of station 101 in the demo site."""


@pytest.fixture
def phone(planning_phone: Page, server: Standing) -> Page:
    open_at(planning_phone, server, "stations")
    return planning_phone


def value(page: Page) -> str:
    return page.locator(".stepper-now").input_value()


def undo(page: Page, server: Standing) -> None:
    """Leaves the site as the next test expects it."""
    server.start()
    page.get_by_role("button", name="Undo").click()
    page.wait_for_function("() => !document.querySelector('.tray-undo')")


def test_a_run_time_is_changed_without_the_server_and_in_force_once_it_is_back(phone: Page, server: Standing) -> None:
    server.stop()
    open_at(phone, server, TURN)
    expect(phone.locator(".stepper-now")).to_have_value(str(WAS_MIN))
    for _ in range(2):
        phone.get_by_role("button", name="5 minutes more").click()
    expect(phone.locator(".stepper-was")).to_contain_text("90")

    effect = phone.get_by_role("region", name="Effect")
    expect(effect.get_by_text("Tonight with 100 min")).to_be_visible(timeout=PLANNED_MS)
    expect(effect.locator(".effect-times")).to_contain_text(re.compile(r"Finish before \d\d:\d\d.?, after \d\d:\d\d"))
    expect(effect.get_by_text("more water")).to_be_visible()

    phone.get_by_role("button", name="Keep 100 min").click()
    tray = phone.locator(".tray")
    expect(tray).to_contain_text("Kept 100 min for 101.")
    expect(tray).to_contain_text("Saved on this phone. Unsent.")

    phone.reload()
    expect(phone.locator(".stepper-now")).to_have_value("100")
    expect(phone.locator(".badge")).to_contain_text("Unsent.")

    phone.get_by_role("navigation", name="Rooms").get_by_role("button", name="Tonight").click()
    expect(phone.locator(".standing")).to_contain_text("With your unsent edits.", timeout=PLANNED_MS)
    phone.get_by_role("searchbox").fill("101")
    fate = phone.locator("[data-station=s101] .row-fate").first
    expect(fate).to_contain_text("for 33 min 20 s")

    server.start()
    line_is_back(phone)
    expect(phone.locator(".standing")).to_have_count(0, timeout=PLANNED_MS)
    expect(fate).to_contain_text("for 33 min 20 s")
    assert run_s(server, "p-d-s101") == 6000


@pytest.mark.journey
def test_the_tray_follows_a_set_until_it_is_in_force_and_takes_it_back(phone: Page, server: Standing) -> None:
    open_at(phone, server, TURN)
    before = int(value(phone))
    phone.get_by_role("button", name="1 minute less").click()
    phone.get_by_role("button", name=f"Keep {before - 1} min").click()
    expect(phone.locator(".tray")).to_contain_text("In force.", timeout=30_000)
    assert run_s(server, "p-d-s101") == (before - 1) * 60
    undo(phone, server)
    expect(phone.locator(".stepper-now")).to_have_value(str(before))
    phone.wait_for_function("() => !document.querySelector('.badge')", timeout=30_000)
    assert run_s(server, "p-d-s101") == before * 60


@pytest.mark.journey
def test_what_is_typed_is_read_in_any_way_and_never_lost(phone: Page, server: Standing) -> None:
    open_at(phone, server, TURN)
    before = value(phone)
    field = phone.locator(".stepper-now")
    field.fill("13 h")
    expect(phone.locator(".stepper-value ~ .field-fault")).to_have_text(
        "Run time must be between 1 s and 12 h, but it is 13 h."
    )
    field.fill("soon")
    field.blur()
    expect(field).to_have_value("soon")
    expect(field).to_have_attribute("aria-invalid", "true")
    field.fill("1h20")
    field.blur()
    expect(field).to_have_value("80")
    expect(phone.get_by_role("button", name="Keep 80 min")).to_be_enabled()
    phone.reload()
    expect(field).to_have_value("80")
    phone.get_by_role("button", name=f"Put back {before} min").click()
    expect(field).to_have_value(before)


@pytest.mark.journey
def test_a_held_step_goes_on_by_itself(phone: Page, server: Standing) -> None:
    open_at(phone, server, TURN)
    before = int(value(phone))
    expect(phone.locator(".sync-chip")).to_have_attribute("data-line", "in_step")
    phone.get_by_role("button", name="1 minute more").hover()
    phone.mouse.down()
    phone.wait_for_function(f"() => Number(document.querySelector('.stepper-now').value) >= {before + 4}")
    phone.mouse.up()
    phone.get_by_role("button", name=f"Put back {before} min").click()


@pytest.mark.journey
def test_a_step_is_painted_at_once_whatever_the_planner_does(phone: Page, server: Standing) -> None:
    """The middle one of nine steps: the machine may be busy with others for one."""
    open_at(phone, server, TURN)
    before = value(phone)
    took = phone.evaluate(STEPS)
    assert sorted(took)[4] <= 100, took
    phone.get_by_role("button", name=f"Put back {before} min").click()


STEPS = """async () => {
  const step = document.querySelectorAll(".stepper-step")[2];
  const took = [];
  for (let turn = 0; turn < 9; turn++) {
    const from = performance.now();
    step.click();
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    took.push(performance.now() - from);
    await new Promise((done) => setTimeout(done, 180));
  }
  return took;
}"""


@pytest.mark.journey
def test_many_run_times_change_as_one(phone: Page, server: Standing) -> None:
    phone.get_by_role("button", name="Choose several").click()
    phone.get_by_role("button", name="Choose all of North meadow").click()
    expect(phone.locator(".station-chosen")).to_have_text("16 stations chosen")
    phone.get_by_role("button", name="Change run times").click()
    phone.get_by_role("button", name="10 percent less").click()
    expect(phone.get_by_role("region", name="Effect").get_by_text("Tonight with this change")).to_be_visible(
        timeout=PLANNED_MS
    )
    phone.get_by_role("button", name="Keep 16 new times").click()
    expect(phone.locator(".tray")).to_contain_text("Kept new run times for 16 turns.")
    expect(phone.locator(".tray")).to_contain_text("In force.", timeout=30_000)
    assert run_s(server, "p-d-s102") == 81 * 60
    undo(phone, server)


@pytest.mark.journey
def test_an_extra_run_is_asked_for_after_the_caution(phone: Page, server: Standing) -> None:
    open_at(phone, server, "stations/s404/ask")
    expect(phone.get_by_role("list", name="Caution")).to_contain_text("Make sure nobody is on the grounds")
    phone.get_by_role("button", name="Ask for 10 min").click()
    expect(phone.locator(".tray")).to_contain_text("Asked for a run of 404", timeout=20_000)
    expect(phone.locator(".tray")).to_contain_text("In force.", timeout=30_000)
    undo(phone, server)


@pytest.mark.journey
def test_stations_are_found_whatever_the_accents_and_few_are_drawn(phone: Page) -> None:
    assert 0 < phone.locator(".virtual-row").count() < 60
    phone.get_by_label("Find by number").fill("404")
    expect(phone.locator(".virtual-row")).to_have_count(1)
    expect(phone.locator(".virtual-row")).to_contain_text("404")
    phone.get_by_label("Find by number").fill("")


@pytest.mark.journey
def test_who_may_not_change_is_told_who_may(browser: Browser, server: Standing) -> None:
    with joined_phone(browser, server, "crew", "Bikram Thapa") as page:
        open_at(page, server, "stations/s101")
        expect(page.get_by_text("You may write notes.")).to_be_visible()
        page.get_by_label("Notes for the crew").fill("Head 3 leaks.")
        page.get_by_role("button", name="Keep the notes").click()
        expect(page.locator(".tray")).to_contain_text("In force.", timeout=30_000)
        assert (record(server, "stations", "s101") or {})["notes"] == "Head 3 leaks."
        undo(page, server)


@pytest.mark.journey
def test_a_visitor_is_shown_the_way_in(browser: Browser, server: Standing) -> None:
    server.start()
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    page = context.new_page()
    open_at(page, server, "stations/s101")
    page.get_by_role("button", name="Join with a code").click()
    page.wait_for_url("**/join*")
    context.close()
