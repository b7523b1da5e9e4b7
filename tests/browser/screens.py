"""Takes a picture of every screen, for people to look at. It judges nothing.

`python tests/browser/screens.py FOLDER ADDRESS` with the server of the demo site running at ADDRESS, best with its
clock standing (`PENGAN_NOW`), and its `PENGAN_DATA` in the environment, for the invitations. `--help`
lists the options.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page, Playwright, sync_playwright

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from browser.every_screen import (  # noqa: E402
    SITE,
    Screen,
    Site,
    come_in,
    every_screen,
    set_run_time,
    settle,
    strangers_screens,
    visit,
    worked_out,
)

HEIGHTS = {320: 700, 360: 740, 820: 1100, 1440: 950}
NO_PLANNER = "Object.defineProperty(Navigator.prototype, 'deviceMemory', { get: () => 1 })"


def wanted(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("address", type=lambda text: text.rstrip("/"))
    parser.add_argument("--languages", type=of_commas, default=["en", "ar"])
    parser.add_argument("--widths", type=lambda text: [int(one) for one in text.split(",")], default=[360, 1440])
    parser.add_argument("--lights", type=of_commas, default=["day", "night"])
    parser.add_argument("--only", type=re.compile, default=re.compile(""), help="screens whose name has this pattern")
    parser.add_argument("--query", default="", help="added to the address: hours=12&units=us")
    parser.add_argument("--text", type=int, default=100, help="size of the text in per cent")
    parser.add_argument("--whole", action="store_true", help="the whole page, not what fits on the screen")
    parser.add_argument("--without-planner", action="store_true", help="quicker; edits then show no effect")
    return parser.parse_args(arguments)


def of_commas(text: str) -> list[str]:
    return text.split(",")


def chromium(playwright: Playwright) -> Browser:
    return playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])


def code_from(address: str) -> str:
    """An invitation for a manager, by the command line of the server at this address."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "server"), "PENGAN_LANGUAGE": "en"}
    command = [sys.executable, "-m", "pengan", "--language", "en", "invite", SITE, "--role", "manager"]
    said = subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60, check=True).stdout
    found = re.search(r"Code: (\S+)", said)
    assert found, f"no invitation for {address}: {said}"
    return found[1]


class Camera:
    """What is wanted, and where the pictures go."""

    def __init__(self, options: argparse.Namespace) -> None:
        self.options = options
        self.failed: list[str] = []

    def page(self, context: BrowserContext, language: str, width: int) -> Page:
        options = self.options
        page = context.new_page()
        page.set_viewport_size({"width": width, "height": HEIGHTS.get(width, 900)})
        page.set_default_timeout(15_000)
        if options.without_planner:
            page.add_init_script(NO_PLANNER)
        page.goto(f"{options.address}/?language={language}&{options.query or 'hours=24&units=metric'}")
        settle(page)
        if options.text != 100:
            page.evaluate(f"document.documentElement.style.fontSize = '{options.text}%'")
        return page

    def take(self, page: Page, name: str, screens: Iterable[Screen]) -> Iterator[Path]:
        """What cannot be reached is told at the end, and does not keep the others from being taken."""
        for screen in screens:
            if not self.options.only.search(screen.name):
                continue
            try:
                visit(page, screen)
                if not self.options.without_planner:
                    worked_out(page)
                yield from self._in_every_light(page, f"{screen.name.strip('-')}-{name}")
                if screen.last:
                    screen.last(page)
            except Error as error:
                self.failed.append(f"{screen.name}-{name}: {error.message.splitlines()[0]}")
                page.context.set_offline(False)

    def _in_every_light(self, page: Page, name: str) -> Iterator[Path]:
        for light in self.options.lights:
            page.evaluate("(light) => { document.documentElement.dataset.light = light; }", light)
            path = self.options.folder / f"{name}-{light}.png"
            page.screenshot(path=path, full_page=self.options.whole)
            yield path


def take_all(browser: Browser, camera: Camera) -> Iterator[Path]:
    """The manager's screens; then those of somebody nobody knows, and those without any site."""
    options = camera.options
    kind: dict[str, Any] = {"locale": "en-GB", "timezone_id": "UTC", "reduced_motion": "reduce"}
    member, stranger = browser.new_context(**kind), browser.new_context(**kind)
    nowhere = browser.new_context(**kind, service_workers="block")
    nowhere.route("**/api/**", lambda route: route.abort())
    site = Site(member.request, options.address)
    come_in(member, options.address, code_from(options.address), "Inês Falcão")
    with_dispute(browser, member, options.address, site)
    for language in options.languages:
        for width in options.widths:
            name = f"{language}-{width}"
            for context, of, screens in (
                (member, "", every_screen(site)),
                (stranger, "out-", strangers_screens()),
                (nowhere, "nowhere-", strangers_screens()),
            ):
                page = camera.page(context, language, width)
                named = (Screen(of + one.name, one.path, one.first, one.last) for one in screens)
                yield from camera.take(page, name, named)
                page.close()


def with_dispute(browser: Browser, member: BrowserContext, address: str, site: Site) -> None:
    """Two people set one run time without knowing of each other."""
    other = browser.new_context()
    come_in(other, address, code_from(address), "Bikram Thapa")
    print("a dispute:", set_run_time(member, address, site, 50 * 60), set_run_time(other, address, site, 36 * 60))
    other.close()


def main(arguments: list[str]) -> int:
    """All pictures into a folder. 1 where a screen could not be reached."""
    camera = Camera(wanted(arguments))
    camera.options.folder.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = chromium(playwright)
        count = sum(1 for _ in take_all(browser, camera))
        browser.close()
    print(f"{count} pictures in {camera.options.folder}", *camera.failed, sep="\n")
    return 1 if camera.failed else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
