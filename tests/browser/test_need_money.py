"""Suggested percentages taken with and without the server, the year's budget, and drought rules."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

from browser.edits import SOON_MS, leaves, line_is_back, open_at, record, records
from browser.standing import Standing

PLANNED_MS = 90_000
"""The planner is fetched and starts in the background; nothing else waits for it."""
PROGRAM, NAME = "p-g", "Reed steps"
"""It runs on the night that the tests stand in."""


@pytest.fixture
def phone(planning_phone: Page, server: Standing) -> Page:
    """Beside a server that answers again."""
    return planning_phone


def percentage(server: Standing, program: str) -> int:
    found = record(server, "programs", program)
    assert found is not None
    return int(found.get("seasonal_pct", 100))


def undo(page: Page) -> None:
    """Leaves the site as the next test expects it."""
    page.locator(".tray-undo").click()
    page.wait_for_function("() => !document.querySelector('.tray-undo')")


def suggestion(page: Page, name: str) -> Locator:
    return page.locator(".suggested-row").filter(has_text=name)


def test_a_suggestion_is_taken_without_the_server_after_its_effect_and_in_force_once_it_is_back(
    phone: Page, server: Standing
) -> None:
    server.stop()
    open_at(phone, server, "need/suggested")
    expect(phone.locator(".need-now-share")).to_have_text("39 %", timeout=PLANNED_MS)
    row = suggestion(phone, NAME)
    expect(row).to_contain_text("from 100 % to 40 %")
    expect(phone.locator(".keep-bar")).to_have_count(0)

    row.get_by_role("checkbox").check()
    effect = phone.get_by_role("region", name="Effect")
    expect(effect.get_by_text("Tonight with this change")).to_be_visible(timeout=PLANNED_MS)
    expect(effect.get_by_text("less water")).to_be_visible()
    phone.get_by_role("button", name="Take 1 suggestion").click()
    tray = phone.locator(".tray")
    expect(tray).to_contain_text("Took the suggestion for 1 program.")
    expect(tray).to_contain_text("Saved on this phone. Unsent.")
    expect(row).to_have_count(0)

    phone.reload()
    expect(phone.locator(".need-now-share")).to_be_visible(timeout=PLANNED_MS)
    expect(suggestion(phone, "Dune south")).to_be_visible()
    expect(row).to_have_count(0)

    server.start()
    line_is_back(phone)
    expect(phone.locator(".sync-chip")).to_have_attribute("data-line", "in_step", timeout=SOON_MS)
    assert percentage(server, PROGRAM) == 40
    assert percentage(server, "p-i") == 100, "what was not chosen stays"


@pytest.mark.journey
def test_all_are_taken_as_one_and_taken_back_as_one_in_a_right_to_left_language(phone: Page, server: Standing) -> None:
    before = percentage(server, "p-d")
    phone.goto(f"{server.address}/need/suggested?hours=24&units=metric&language=ar")
    expect(phone.locator("html")).to_have_attribute("dir", "rtl")
    expect(phone.locator(".suggested-row").first).to_be_visible(timeout=PLANNED_MS)
    phone.locator(".suggested-head .button").click()
    expect(phone.locator(".suggested-row :checked")).to_have_count(phone.locator(".suggested-row").count())
    expect(phone.locator(".effect-known")).to_be_visible(timeout=PLANNED_MS)
    assert phone.evaluate("() => document.documentElement.scrollWidth <= innerWidth"), "nothing is wider than the phone"
    phone.locator(".keep-bar .button-strong").click()
    expect(phone.locator(".tray-undo")).to_be_visible()
    expect(phone.locator(".suggested-row")).to_have_count(0, timeout=PLANNED_MS)
    phone.wait_for_function("() => document.querySelector('.sync-chip')?.dataset.line === 'in_step'", timeout=SOON_MS)
    assert percentage(server, "p-d") == 40
    undo(phone)
    expect(phone.locator(".suggested-row").first).to_be_visible(timeout=PLANNED_MS)
    phone.wait_for_timeout(1000)
    phone.wait_for_function("() => document.querySelector('.sync-chip')?.dataset.line === 'in_step'", timeout=SOON_MS)
    assert percentage(server, "p-d") == before


@pytest.mark.journey
def test_a_program_s_limits_are_set_and_hold_for_what_is_suggested(phone: Page, server: Standing) -> None:
    open_at(phone, server, "need/suggested/p-i")
    field = phone.get_by_label("Seasonal percentage at least")
    field.fill("200")
    field.blur()
    expect(phone.locator(".keep-words")).to_contain_text("The least must not be above the most.")
    expect(phone.get_by_role("button", name="Keep the limits")).to_be_disabled()
    field.fill("60")
    field.blur()
    phone.get_by_role("button", name="Keep the limits").click()
    expect(phone.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
    assert (record(server, "programs", "p-i") or {})["seasonal_least_pct"] == 60
    open_at(phone, server, "need/suggested")
    row = suggestion(phone, "Dune south")
    expect(row).to_contain_text("from 100 % to 60 %", timeout=PLANNED_MS)
    expect(row).to_contain_text("Its limit is 60 %; need alone would say 39 %.")


@pytest.mark.journey
def test_a_year_s_budget_is_read_by_month_and_hydrozone_taken_along_and_kept_for_later(
    phone: Page, server: Standing
) -> None:
    open_at(phone, server, "need/budget")
    expect(phone.locator(".budget-month")).to_have_count(12)
    expect(phone.locator(".budget-month-bar")).to_have_count(12)
    july = phone.locator("[data-month='2026-07']")
    july.locator("summary").click()
    expect(july.locator("tbody tr").filter(has_text="Palms")).to_be_visible()
    expect(phone.locator(".budget-figures")).to_contain_text("€")
    address = phone.locator(".budget-file").get_attribute("href")
    answer = phone.request.get(f"{server.address}{address}")
    assert answer.ok and answer.text().startswith("month,hydrozone,name,allowed_l,planned_l,used_l,left_l")
    phone.get_by_role("button", name="2027").click()
    expect(phone.get_by_role("heading", name="The year 2027")).to_be_visible()
    expect(phone.locator(".budget-month")).to_have_count(12)

    server.stop()
    open_at(phone, server, "need/budget/2027")
    expect(phone.locator(".budget-month")).to_have_count(12)
    expect(phone.locator(".more-alert")).to_contain_text("This needs signal. You see it as of")


@pytest.mark.journey
def test_a_drought_gives_priorities_their_share_and_ends_when_they_get_everything(
    phone: Page, server: Standing
) -> None:
    open_at(phone, server, "need/drought")
    expect(phone.get_by_text("No turn of this site is worked out by need")).to_be_visible()
    share = phone.get_by_label("Priority 8 gets")
    share.fill("25")
    share.blur()
    phone.get_by_role("button", name="Keep the drought rules").click()
    expect(phone.locator(".tray")).to_contain_text("In force.", timeout=SOON_MS)
    expect(phone.locator(".drought-now")).to_have_text("A drought rule holds tonight.")
    (rule,) = records(server, "droughts")
    assert (rule["priority"], rule["share_pct"], rule["starts"]) == (8, 25, "2026-10-24")
    share.fill("100")
    share.blur()
    phone.get_by_role("button", name="Keep the drought rules").click()
    leaves(phone, server, "droughts", rule["id"])
    assert records(server, "droughts") == []
