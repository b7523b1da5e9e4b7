"""A phone whose reader has joined the demo site's team."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, Page

from browser.standing import ROOT, Standing

SITE = "quinta-das-mares"
SETTINGS = "hours=24&units=metric&language=en"


def code_for(server: Standing, role: str) -> str:
    """An invitation's code, from the command line."""
    environment = {**os.environ, "PENGAN_DATA": str(server.folder), "PENGAN_DATABASE": ""}
    command = [sys.executable, "-m", "pengan", "--language", "en", "invite", SITE, "--role", role]
    said = subprocess.run(
        command,
        cwd=server.folder,
        env={**environment, "PYTHONPATH": str(ROOT / "server")},
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    ).stdout
    found = re.search(r"Code: (\S+)", said)
    assert found, said
    return found[1]


def join(page: Page, code: str, name: str = "Inês Falcão") -> None:
    """By the API, as the room More does it; the page is opened anew afterwards."""
    body = {"code": code, "name": name, "device_name": "Phone", "language": "en"}
    status = page.evaluate(
        """(body) => fetch("/api/invitations/join", {
            method: "POST",
            headers: { "content-type": "application/json" },
            body: JSON.stringify(body),
        }).then((answer) => answer.status)""",
        body,
    )
    assert status == 201


@contextmanager
def joined_phone(browser: Browser, server: Standing, role: str, name: str = "Inês Falcão") -> Iterator[Page]:
    """A phone of its own, on the room of the stations. Faults of the page fail the test at its end."""
    server.start()
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    context.set_default_timeout(20_000)
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(f"{server.address}/?{SETTINGS}")
    join(page, code_for(server, role), name)
    page.goto(f"{server.address}/stations?{SETTINGS}")
    yield page
    context.close()
    assert faults == []
