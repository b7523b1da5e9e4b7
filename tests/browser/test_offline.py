"""The app without its server: stopped for real, since a browser's own offline switch does not reach service workers."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect

from browser.kept import cache_names, keep_all, until
from browser.standing import Standing, portal_in_place_of

ROOMS = ("Tonight", "Stations", "Ahead", "Changes", "More")


@pytest.fixture(autouse=True)
def patient() -> Iterator[None]:
    """A machine that runs all tests at once may take its time over a start of the app."""
    expect.set_options(timeout=20_000)
    yield
    expect.set_options(timeout=5_000)


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("standing"))
    yield standing
    standing.stop()


@pytest.fixture(scope="module")
def phone(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    """A phone that has the whole app, and was last used in the room Ahead."""
    server.start()
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    context.set_default_timeout(30_000)
    page = context.new_page()
    page.goto(f"{server.address}/?hours=24")
    page.wait_for_selector(".drawing .block")
    assert keep_all(page)["ready"]
    room(page, "Ahead")
    page.close()
    yield context
    context.close()


@pytest.fixture
def page(phone: BrowserContext) -> Iterator[Page]:
    one = phone.new_page()
    yield one
    one.close()


def room(page: Page, name: str) -> None:
    button = page.get_by_role("navigation", name="Rooms").get_by_role("button", name=name)
    button.click()
    expect(button).to_have_attribute("aria-current", "page")


def test_the_api_is_never_answered_by_the_worker(page: Page, server: Standing) -> None:
    server.start()
    with page.expect_response(lambda response: "/api/" in response.url) as answered:
        page.goto(server.address)
    assert not answered.value.from_service_worker
    assert not [url for url in page.evaluate(ALL_KEPT) if "/api/" in url]


@pytest.mark.journey
def test_kinds_of_files_are_kept_apart(page: Page, server: Standing) -> None:
    page.goto(server.address)
    assert {name.split("-")[1] for name in cache_names(page)} >= {"shell", "languages", "ledger"}


@pytest.mark.journey
def test_a_script_that_the_system_took_is_fetched_and_kept_anew(page: Page, server: Standing) -> None:
    server.start()
    page.goto(server.address)
    taken = page.evaluate(TAKE_FIRST_SCRIPT)
    page.goto(server.address)
    page.wait_for_selector(".drawing .block")
    until(page, f"({HOLDS})('{taken}')")


def test_opens_cold_and_without_the_server_on_the_last_room_used(page: Page, server: Standing) -> None:
    server.start()
    page.goto(server.address)
    room(page, "Ahead")
    server.stop()
    page.goto(f"{server.address}/?from=icon")
    button = page.get_by_role("navigation", name="Rooms").get_by_role("button", name="Ahead")
    expect(button).to_have_attribute("aria-current", "page")
    assert page.url == f"{server.address}/ahead"
    expect(page.locator(".room main")).to_be_visible()


def test_shows_tonight_and_the_next_water_without_the_server(page: Page, server: Standing) -> None:
    server.stop()
    page.goto(server.address)
    page.wait_for_selector(".drawing .block")
    expect(page.get_by_text("Next water")).to_be_visible()


@pytest.mark.journey
def test_every_room_opens_without_the_server(page: Page, server: Standing) -> None:
    server.stop()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(server.address)
    for name in ROOMS:
        room(page, name)
        expect(page.locator(".room main")).to_be_visible()
    assert faults == []


@pytest.mark.journey
@pytest.mark.parametrize("address", ["/stations/104", "/join", "/any/deep/address"])
def test_every_address_of_the_app_opens_without_the_server(page: Page, server: Standing, address: str) -> None:
    server.stop()
    page.goto(server.address + address)
    expect(page.get_by_role("navigation", name="Rooms")).to_be_visible()


@pytest.mark.journey
def test_the_language_changes_without_the_server(page: Page, server: Standing) -> None:
    server.stop()
    page.goto(f"{server.address}/?language=es")
    page.wait_for_selector(".drawing .block")
    expect(page.locator("html")).to_have_attribute("lang", "es")
    expect(page.get_by_text("Next water")).to_have_count(0)
    page.goto(f"{server.address}/?language=en")
    page.wait_for_selector(".drawing .block")


def test_a_login_page_in_the_servers_place_is_no_signal(page: Page, server: Standing) -> None:
    with portal_in_place_of(server):
        page.goto(server.address)
        expect(page.locator(".sync-chip")).to_have_attribute("data-line", "no_signal", timeout=20_000)
        expect(page.locator(".banner")).to_contain_text("No signal")
        assert keep_all(page)["ready"], "nothing of the login page was kept"
        assert "Room number" not in page.content()


@pytest.mark.journey
def test_the_page_is_never_shown_without_its_scripts(page: Page, server: Standing) -> None:
    """Nothing can be shown then; the browser's own word for it is better than an empty page."""
    server.stop()
    page.goto(server.address)
    page.evaluate(TAKE_FIRST_SCRIPT)
    with pytest.raises(Error, match="ERR_FAILED|ERR_CONNECTION_REFUSED"):
        page.goto(server.address)


TAKE_FIRST_SCRIPT = """async () => {
  const name = (await caches.keys()).find((one) => one.startsWith("pengan-shell-"));
  const script = document.querySelector("script[type=module]").src;
  if (!(await (await caches.open(name)).delete(script))) throw new Error("it was not kept");
  return script;
}"""
HOLDS = "async (url) => (await caches.match(url)) !== undefined"
ALL_KEPT = """async () => {
  const all = [];
  for (const name of await caches.keys()) {
    for (const request of await (await caches.open(name)).keys()) all.push(request.url);
  }
  return all;
}"""
