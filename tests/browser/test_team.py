"""Team and devices: inviting, roles, lost phones, one's own devices, signing out; and what is shown without a line."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, expect

from browser.crew import choose, come_in, in_step, open_at, phone
from browser.standing import Standing

pytestmark = pytest.mark.journey


@pytest.fixture
def manager(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    """The site's only manager of that name, in step."""
    with phone(browser, cut_off=True) as context:
        in_step(come_in(context, server, "manager", "Inês Falcão", "Office desk"))
        yield context


def test_an_invitation_brings_somebody_in_and_can_be_withdrawn(
    browser: Browser, manager: BrowserContext, server: Standing
) -> None:
    page = open_at(manager, server, "more/team")
    page.get_by_role("button", name="Invite somebody").click()
    choose(page, "Lead")
    page.get_by_label("Whom it is for").fill("Bikram Thapa")
    page.get_by_role("button", name="Make a code").click()
    address = page.locator(".code-address").inner_text()
    assert address == f"{server.address}/join#{page.locator('.code-signs').inner_text()}"
    page.get_by_role("button", name="Done").click()
    expect(page.locator(".more-row", has_text="Bikram Thapa")).to_contain_text("Lead, until")
    with phone(browser) as other:
        there = other.new_page()
        there.goto(address)
        there.get_by_label("Your name").fill("Bikram Thapa")
        there.get_by_role("button", name="Come in", exact=True).click()
        there.wait_for_url(f"{server.address}/")
    page.reload()
    expect(page.locator(".more-row-button", has_text="Bikram Thapa")).to_contain_text("Lead")
    page.get_by_role("button", name="Invite somebody").click()
    page.get_by_label("Whom it is for").fill("Somebody else")
    page.get_by_role("button", name="Make a code").click()
    page.get_by_role("button", name="Done").click()
    page.get_by_role("button", name="Withdraw the invitation for Somebody else").click()
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Withdraw the invitation for Somebody else").click()
    expect(page.locator(".more-row", has_text="Somebody else")).to_have_count(0, timeout=12_000)


def test_a_role_is_changed_at_once_and_a_lost_phone_is_ended(
    browser: Browser, manager: BrowserContext, server: Standing
) -> None:
    with phone(browser) as lost:
        come_in(lost, server, "crew", "Salma Haddad", "Lost phone")
        page = open_at(manager, server, "more/team")
        page.get_by_role("button", name="Salma Haddad").click()
        choose(page, "Lead")
        expect(page.get_by_role("radio", name="Lead")).to_be_checked()
        expect(page.get_by_role("radio", name="Lead")).to_be_enabled()
        roles = [site["role"] for site in lost.request.get(f"{server.address}/api/session").json()["sites"]]
        assert roles == ["lead"]
        page.get_by_role("button", name="End Lost phone").click()
        expect(page.locator(".put-off")).to_contain_text("Lost phone is about to be ended.")
        expect(page.locator(".more-row", has_text="Lost phone")).to_have_count(0, timeout=12_000)
        assert lost.request.get(f"{server.address}/api/session").status == 401
        page.get_by_role("button", name="Code for a new phone").click()
        code = page.locator(".code-signs").inner_text()
        body = {"code": code, "name": "whatever", "language": "en", "device_name": "New phone"}
        assert lost.request.post(f"{server.address}/api/invitations/join", data=body).status == 201
        assert lost.request.get(f"{server.address}/api/session").json()["profile"]["name"] == "Salma Haddad"


def test_ending_a_device_is_done_even_where_its_screen_is_left_at_once(
    browser: Browser, manager: BrowserContext, server: Standing
) -> None:
    page = open_at(manager, server, "more/devices")
    page.get_by_role("button", name="Code for my next device").click()
    body = {"code": page.locator(".code-signs").inner_text(), "name": "x", "language": "en", "device_name": "Tablet"}
    with phone(browser) as tablet:
        assert tablet.request.post(f"{server.address}/api/invitations/join", data=body).status == 201
        page.get_by_role("button", name="Done").click()
        page.reload()
        page.get_by_role("button", name="End Tablet").click()
        with page.expect_response(lambda answer: answer.request.method == "DELETE") as ended:
            page.get_by_role("button", name="Ahead").click()
        assert ended.value.status == 204
        assert tablet.request.get(f"{server.address}/api/session").status == 401


def test_without_a_line_the_last_known_list_is_shown_and_says_so(manager: BrowserContext, server: Standing) -> None:
    page = open_at(manager, server, "more/team")
    expect(page.locator(".more-row-button", has_text="Inês Falcão").first).to_be_visible()
    page.get_by_role("navigation", name="Rooms").get_by_role("button", name="More").click()
    server.stop()
    page.get_by_role("navigation", name="Pages").get_by_role("button", name="Team").click()
    expect(page.locator(".more-alert").first).to_contain_text("This needs signal. You see it as of")
    expect(page.locator(".more-row-button", has_text="Inês Falcão").first).to_be_visible()
    server.start()
    page.get_by_role("button", name="Try again").first.click()
    expect(page.locator(".more-alert")).to_have_count(0)


def test_the_last_manager_cannot_leave_and_is_told_why(
    browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> None:
    alone = Standing(tmp_path_factory.mktemp("alone"))
    alone.start()
    try:
        with phone(browser) as context:
            in_step(come_in(context, alone, "manager", "Inês Falcão"))
            page = open_at(context, alone, "more/team")
            page.get_by_role("button", name="Inês Falcão").click()
            choose(page, "Crew")
            expect(page.locator(".more-alert")).to_have_text("A site needs a manager: make somebody else one first.")
            expect(page.get_by_role("radio", name="Manager")).to_be_checked()
    finally:
        alone.stop()


def test_signing_out_ends_the_device_and_shows_nobodys_name(manager: BrowserContext, server: Standing) -> None:
    page = open_at(manager, server, "more/sign-out")
    expect(page.locator(".more-form")).to_contain_text("Nothing is unsent on this phone.")
    page.get_by_role("button", name="Sign out Inês Falcão").click()
    expect(page.locator(".who")).to_contain_text("Nobody is signed in on this phone")
    assert manager.request.get(f"{server.address}/api/session").status == 401
    kept = page.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('pengan.known.'))")
    assert [key for key in kept if "people" in key or "devices" in key] == []
