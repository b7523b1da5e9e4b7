"""Coming in: by an address, a typed code, a picture of one, the camera, or a manager's password."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.codes import code_for
from browser.crew import come_in, open_at, phone
from browser.standing import Standing

pytestmark = pytest.mark.journey


@pytest.fixture
def newcomer(browser: Browser) -> Iterator[BrowserContext]:
    with phone(browser) as context:
        yield context


def come(page: Page, name: str) -> None:
    page.get_by_label("Your name").fill(name)
    page.get_by_role("button", name="Come in", exact=True).click()


def signed_in(context: BrowserContext, server: Standing) -> dict[str, object]:
    found: dict[str, object] = context.request.get(f"{server.address}/api/session").json()
    return found


def test_an_address_fills_the_code_in_and_leaves_it_in_no_history(newcomer: BrowserContext, server: Standing) -> None:
    code = code_for(server, "lead")
    page = open_at(newcomer, server, f"join#{code}")
    expect(page.get_by_label("Code", exact=True)).to_have_value(code)
    assert page.url == f"{server.address}/join"
    page.get_by_label("Language").select_option("es")
    expect(page.locator("html")).to_have_attribute("lang", "es")
    page.get_by_label("Idioma").or_(page.get_by_label("Language")).select_option("en")
    come(page, "Bikram Thapa")
    page.wait_for_url(f"{server.address}/")
    page.wait_for_selector(".drawing .block")
    session = signed_in(newcomer, server)
    assert session["profile"]["name"] == "Bikram Thapa"  # type: ignore[index]
    assert [site["role"] for site in session["sites"]] == ["lead"]  # type: ignore[attr-defined]
    page.get_by_role("button", name="More").click()
    expect(page.locator(".who")).to_contain_text("Lead at Quinta das Marés")


def test_a_typed_code_is_forgiven_its_case_and_spaces(newcomer: BrowserContext, server: Standing) -> None:
    code = code_for(server, "crew")
    page = open_at(newcomer, server, "join")
    page.get_by_label("Code", exact=True).fill(f" {code[:3].lower()} {code[3:].lower().replace('-', ' - ')} ")
    expect(page.get_by_label("Code", exact=True)).to_have_value(code)
    come(page, "Salma Haddad")
    page.wait_for_url(f"{server.address}/")


def test_what_is_missing_or_in_no_code_is_said_all_at_once_and_nothing_is_lost(
    newcomer: BrowserContext, server: Standing
) -> None:
    page = open_at(newcomer, server, "join")
    page.get_by_label("Code", exact=True).fill("PF8RG-9K")
    expect(page.locator(".code-field .field-fault")).to_contain_text("8")
    page.get_by_role("button", name="Come in", exact=True).click()
    expect(page.get_by_role("alert").get_by_role("listitem")).to_have_text(
        ["The code needs ten signs.", "Your name is missing."]
    )
    page.reload()
    expect(page.get_by_label("Code", exact=True)).to_have_value("PF8RG-9K")


def test_a_code_that_cannot_be_used_is_told_in_the_servers_words(newcomer: BrowserContext, server: Standing) -> None:
    page = open_at(newcomer, server, "join#PF4RG-9KTDM")
    come(page, "Nobody")
    expect(page.locator(".more-alert")).to_have_text(
        "This code cannot be used. It may be mistyped, used already, or too old: ask for another."
    )
    expect(page.get_by_label("Your name")).to_have_value("Nobody")


def test_without_a_line_it_says_so_keeps_what_was_typed_and_goes_on_later(browser: Browser, server: Standing) -> None:
    with phone(browser, cut_off=True) as newcomer:
        page = open_at(newcomer, server, f"join#{code_for(server, 'crew')}")
        expect(page.get_by_label("Your name")).to_be_visible()
        server.stop()
        come(page, "Ayşe Demirtaş")
        expect(page.locator(".more-alert")).to_have_text("This needs signal. The server does not answer.")
        expect(page.get_by_label("Your name")).to_have_value("Ayşe Demirtaş")
        server.start()
        page.get_by_role("button", name="Come in", exact=True).click()
        page.wait_for_url(f"{server.address}/")


@pytest.fixture
def shown_code(browser: Browser, server: Standing, tmp_path: Path) -> Iterator[tuple[str, Path]]:
    """A code on a manager's screen, and a photograph of that screen."""
    with phone(browser, width=640, height=480) as context:
        come_in(context, server, "manager", "Inês Falcão")
        page = open_at(context, server, "more/invite")
        page.get_by_role("button", name="Make a code").click()
        page.wait_for_selector(".code-qr svg")
        page.locator(".code-qr").scroll_into_view_if_needed()
        picture = tmp_path / "code.jpeg"
        page.screenshot(path=picture, type="jpeg")
        yield page.locator(".code-signs").inner_text(), picture


def test_a_code_is_read_off_a_picture(
    newcomer: BrowserContext, server: Standing, shown_code: tuple[str, Path], tmp_path: Path
) -> None:
    code, picture = shown_code
    page = open_at(newcomer, server, "join")
    none = tmp_path / "none.png"
    page.screenshot(path=none)
    chosen = page.get_by_label("Picture of the code")
    chosen.set_input_files(none)
    expect(page.locator(".code-field")).to_contain_text("There is no joining code of ours on that picture.")
    chosen.set_input_files(picture)
    expect(page.get_by_label("Code", exact=True)).to_have_value(code)


def test_a_code_is_seen_by_the_camera(
    browser: Browser, server: Standing, shown_code: tuple[str, Path], tmp_path: Path
) -> None:
    """Chromium plays a film of the manager's screen in place of a camera."""
    code, picture = shown_code
    film = tmp_path / "camera.mjpeg"
    film.write_bytes(picture.read_bytes() * 30)
    words = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", "--no-sandbox"]
    words.append(f"--use-file-for-fake-video-capture={film}")
    with (
        browser.browser_type.launch(executable_path=_chromium(), args=words) as filming,
        phone(filming) as context,
    ):
        page = open_at(context, server, "join")
        page.get_by_role("button", name="Read it with the camera").click()
        expect(page.get_by_label("Code", exact=True)).to_have_value(code, timeout=20_000)
        expect(page.locator("video")).to_have_count(0)


def _chromium() -> str:
    import shutil

    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    assert found is not None
    return found


def test_a_manager_signs_in_with_a_password_on_another_device(
    browser: Browser, newcomer: BrowserContext, server: Standing
) -> None:
    come_in(newcomer, server, "manager", "Tiago Nóvoa")
    page = open_at(newcomer, server, "more/password")
    page.get_by_label("Sign-in name").fill("tiago")
    page.get_by_label("New password").fill("short")
    page.get_by_role("button", name="Set the password").click()
    expect(page.locator(".password-field .field-fault").last).to_have_text("A password has at least 10 signs.")
    page.get_by_label("New password").fill("seven pelicans on a quay")
    page.get_by_role("button", name="Set the password").click()
    expect(page.locator(".more-form")).to_contain_text("The password is set.")
    with phone(browser) as other:
        page = open_at(other, server, "join/sign-in")
        page.get_by_label("Sign-in name").fill("Tiago")
        page.get_by_label("Password", exact=True).fill("wrong pelicans on a quay")
        page.get_by_role("button", name="Sign in", exact=True).click()
        expect(page.locator(".more-alert")).to_have_text("Name and password do not belong together.")
        page.get_by_label("Password", exact=True).fill("seven pelicans on a quay")
        page.get_by_role("button", name="Sign in", exact=True).click()
        page.wait_for_url(f"{server.address}/")
        assert signed_in(other, server)["sign_in_name"] == "tiago"
