"""Takes a picture of the first screen in every size, direction and light, for people to look at.

`python tests/browser/screens.py FOLDER ADDRESS`, with the server running at ADDRESS, best with its clock standing
(`PENGAN_NOW`). It judges nothing.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from itertools import product
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

SIZES = {"phone": (360, 740), "tablet": (820, 1100), "desk": (1440, 1000), "narrow": (320, 700)}
LANGUAGES = {"ltr": "en", "rtl": "ar-XB", "spanish": "es", "accented": "en-XA"}
LIGHTS = ("day", "night", "sun")


def take_all(browser: Browser, address: str, folder: Path) -> Iterator[Path]:
    """One picture after the other."""
    for size, (name, language), light in product(SIZES, LANGUAGES.items(), LIGHTS):
        width, height = SIZES[size]
        page = browser.new_page(
            viewport={"width": width, "height": height}, device_scale_factor=2 if width < 500 else 1, locale="en-GB"
        )
        page.goto(f"{address}/?language={language}&light={light}&hours=24")
        page.wait_for_selector(".drawing .block")
        page.evaluate("document.fonts.ready.then(() => null)")
        path = folder / f"{size}-{name}-{light}.png"
        page.screenshot(path=path)
        page.close()
        yield path


def main(folder: Path, address: str) -> None:
    """All pictures into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for path in take_all(browser, address, folder):
            print(path)
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2].rstrip("/"))
