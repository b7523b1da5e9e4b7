"""Runs axe on every screen in every language, on a phone and at a desk, and prints what it finds.

`python tests/browser/axe_everywhere.py ADDRESS` with the server of the demo site running at ADDRESS and its
`PENGAN_DATA` in the environment, for the invitations. `--help` lists the options.
"""

from __future__ import annotations

import argparse
import re
import sys
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[1]))

from browser.axe import flaws
from browser.every_screen import (
    Screen,
    Site,
    come_in,
    every_screen,
    set_run_time,
    settle,
    strangers_screens,
    visit,
)
from browser.screens import HEIGHTS, NO_PLANNER, chromium, code_from, of_commas


def wanted(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("address", type=lambda text: text.rstrip("/"))
    parser.add_argument("--languages", type=of_commas, default=["en", "es", "pt", "de", "ar"])
    parser.add_argument("--widths", type=lambda text: [int(one) for one in text.split(",")], default=[360, 1440])
    parser.add_argument("--lights", type=of_commas, default=["day"])
    parser.add_argument("--only", type=re.compile, default=re.compile(""), help="screens whose name has this pattern")
    return parser.parse_args(arguments)


def judge(page: Page, screens: Iterable[Screen], options: argparse.Namespace, name: str) -> int:
    """How many flaws all these screens have; each is printed. What cannot be reached counts as one."""
    count = 0
    for screen in screens:
        if not options.only.search(screen.name):
            continue
        try:
            visit(page, screen)
            for light in options.lights:
                page.evaluate("(light) => { document.documentElement.dataset.light = light; }", light)
                found = flaws(page)
                count += len(found)
                for flaw in found:
                    print(f"{screen.name} {name} {light}: {flaw}", flush=True)
            if screen.last:
                screen.last(page)
        except Error as error:
            count += 1
            page.context.set_offline(False)
            print(f"{screen.name} {name}: not reached: {error.message.splitlines()[0]}", flush=True)
    return count


def open_in(context: BrowserContext, address: str, language: str, width: int) -> Page:
    page = context.new_page()
    page.set_viewport_size({"width": width, "height": HEIGHTS.get(width, 900)})
    page.set_default_timeout(15_000)
    page.add_init_script(NO_PLANNER)
    page.goto(f"{address}/?language={language}&hours=24&units=metric")
    settle(page)
    return page


def judge_all(browser: Browser, options: argparse.Namespace) -> int:
    """Prints the count of each language at the end of it."""
    kind: dict[str, Any] = {"locale": "en-GB", "timezone_id": "UTC", "reduced_motion": "reduce"}
    member, stranger = browser.new_context(**kind), browser.new_context(**kind)
    site = Site(member.request, options.address)
    come_in(member, options.address, code_from(options.address), "Inês Falcão")
    come_in(stranger, options.address, code_from(options.address), "Bikram Thapa")
    set_run_time(member, options.address, site, 50 * 60)
    set_run_time(stranger, options.address, site, 36 * 60)
    stranger.clear_cookies()
    total = 0
    for language in options.languages:
        started, count = time.monotonic(), 0
        for width in options.widths:
            for context, screens in ((member, every_screen(site)), (stranger, strangers_screens())):
                page = open_in(context, options.address, language, width)
                count += judge(page, screens, options, f"{language}-{width}")
                page.close()
        print(f"{language}: {count} flaws, {time.monotonic() - started:.0f} s", flush=True)
        total += count
    return total


def main(arguments: list[str]) -> int:
    """1 where there is any flaw."""
    with sync_playwright() as playwright:
        browser = chromium(playwright)
        total = judge_all(browser, wanted(arguments))
        browser.close()
    return 1 if total else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
