"""Safari's engine, as Debian packs it: WebKitGTK's small browser on a screen that nobody sees, driven by Selenium."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver import WebKitGTK
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

from browser.conftest import served

__all__ = ["served"]

SCREEN = "1280x1024x24"
SCRIPT_PATIENCE_S = 120
PAGE_PATIENCE_S = 60


@pytest.fixture(scope="session")
def screen() -> Iterator[str]:
    """A display of our own: Xvfb takes the first number that is free and says which."""
    says, hears = os.pipe()
    command = [_program("Xvfb"), "-displayfd", str(hears), "-screen", "0", SCREEN, "-nolisten", "tcp"]
    with subprocess.Popen(command, pass_fds=[hears], stderr=subprocess.DEVNULL) as xvfb:
        os.close(hears)
        try:
            with os.fdopen(says) as line:
                number = line.readline().strip()
            assert number, "Xvfb ended before it had a display"
            yield f":{number}"
        finally:
            xvfb.terminate()


@pytest.fixture
def webkit(screen: str) -> Iterator[WebKitGTK]:
    """A fresh browser with empty storage. It fails, and does not skip, where WebKit is not installed."""
    options = Options()
    options.binary_location = str(_mini_browser())
    options.add_argument("--automation")
    # WebKit's own sandbox does not work as root, nor in most containers.
    environment = {**os.environ, "DISPLAY": screen, "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1"}
    environment.pop("WAYLAND_DISPLAY", None)
    driver = WebKitGTK(options=options, service=Service(_program("WebKitWebDriver"), env=environment))
    try:
        driver.set_script_timeout(SCRIPT_PATIENCE_S)
        driver.set_page_load_timeout(PAGE_PATIENCE_S)
        yield driver
    finally:
        driver.quit()


def _program(name: str) -> str:
    found = shutil.which(name)
    if found is None:
        pytest.fail(f"The WebKit tests need {name} on PATH: install the packages webkit2gtk-driver and xvfb.")
    return found


def _mini_browser() -> Path:
    found = sorted(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")) + sorted(
        Path("/usr/libexec").glob("webkit2gtk-4.*/MiniBrowser")
    )
    if not found:
        pytest.fail("The WebKit tests need WebKitGTK's MiniBrowser: install the package webkit2gtk-driver.")
    return found[-1]
