"""What the app may weigh and take: first load, planner, cold start without signal, answers to a tap, Lighthouse."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit
from urllib.request import Request, urlopen

from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

from browser.kept import keep_all
from browser.standing import ROOT, Standing

from . import scrolling
from .table import Table, note

FIRST_LOAD_MOST_KB, PLANNER_MOST_MB = 120.0, 4.2
LAUNCH_MOST_MS, TAP_MOST_MS = 1000.0, 100.0
SLOWED, STARTS = 4, 5
LIGHTHOUSE_RUNS = 3
LIGHTHOUSE = "lighthouse@12.2.3"
SCORES = {"performance": 95, "accessibility": 100, "best-practices": 100}
PHONE = {"width": 360, "height": 740}
NEXT_WATER = ".next-time, .next-after"


def show() -> None:
    table = Table("The app's budgets", ("what", "measured", "at most", "reached"), 44)
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = Standing(Path(folder))
        server.start()
        try:
            _weights(table, playwright, server)
            scores = _lighthouse(server.address)
            _times(table, playwright, server, Path(folder) / "profile")
        finally:
            server.stop()
        scrolling.rows(table, playwright, _phone)
    for name, least in SCORES.items():
        found = scores.get(name)
        table.row(
            f"Lighthouse, {name}", "not run" if found is None else f"{found:.0f}", f"≥ {least}", _met(found, least)
        )
    note("KB and MB are thousands and millions of bytes, as they went over the line, heads of answers included.")
    note(f"Slowed {SLOWED} times by the browser, which does not slow workers; on this machine's processor.")


def _weights(table: Table, playwright: Playwright, server: Standing) -> None:
    with _phone(playwright) as context:
        files = first_load(context.new_page(), server.address)
    total = sum(files.values()) / 1000
    table.row("first load, KB", f"{total:.1f}", f"{FIRST_LOAD_MOST_KB:.0f}", _within(total, FIRST_LOAD_MOST_KB))
    for path, size in sorted(files.items(), key=lambda item: -item[1]):
        table.row(f"  {path}", f"{size / 1000:.1f}")
    planner = planner_size(server.address) / 1e6
    table.row("planner, MB", f"{planner:.2f}", f"{PLANNER_MOST_MB}", _within(planner, PLANNER_MOST_MB))


def first_load(page: Page, address: str) -> dict[str, int]:
    """What is fetched on a first visit until tonight stands, answers of the API left out: bytes by path."""
    line = page.context.new_cdp_session(page)
    paths: dict[str, str] = {}
    sizes: dict[str, int] = {}
    line.on("Network.requestWillBeSent", lambda event: paths.update({event["requestId"]: _path(event)}))
    line.on(
        "Network.loadingFinished",
        lambda event: sizes.update({paths.get(event["requestId"], "?"): int(event["encodedDataLength"])}),
    )
    line.send("Network.enable")
    page.goto(address)
    page.wait_for_selector(".drawing .block")
    page.evaluate("document.fonts.ready.then(() => null)")
    return {path: size for path, size in sizes.items() if not path.startswith(("/api", "/planner"))}


def _path(event: dict[str, Any]) -> str:
    return urlsplit(event["request"]["url"]).path


def planner_size(address: str) -> int:
    """The planner's files as the server sends them to a browser."""
    with urlopen(f"{address}/planner/planner.json", timeout=20) as answer:
        files = json.load(answer)["files"]
    return sum(_sent(address + file["url"]) for file in files)


def _sent(address: str) -> int:
    with urlopen(Request(address, headers={"Accept-Encoding": "br, gzip"}), timeout=60) as answer:
        return len(answer.read())


def _times(table: Table, playwright: Playwright, server: Standing, profile: Path) -> None:
    with _phone(playwright, profile) as context:
        page = context.new_page()
        page.goto(f"{server.address}/?hours=24")
        page.wait_for_selector(".drawing .block")
        keep_all(page)
        taps = {speed: slowest_tap(page, speed) for speed in (1, SLOWED)}
    server.stop()
    launches = [_launch(playwright, profile, server.address) for _ in range(STARTS)]
    found = median(launches)
    table.row(
        f"cold start offline to next water, ms, slowed {SLOWED}×",
        f"{found:.0f}",
        f"{LAUNCH_MOST_MS:.0f}",
        _within(found, LAUNCH_MOST_MS),
    )
    table.row("  quickest and slowest", f"{min(launches):.0f}", f"{max(launches):.0f}")
    table.row("slowest tap to paint, ms", f"{taps[1]:.0f}", f"{TAP_MOST_MS:.0f}", _within(taps[1], TAP_MOST_MS))
    table.row(f"  the same, slowed {SLOWED}×", f"{taps[SLOWED]:.0f}")


WATCH_FOR_WATER = f"""
new MutationObserver((_, watch) => {{
  if (!document.querySelector("{NEXT_WATER}")) return;
  watch.disconnect();
  requestAnimationFrame(() => requestAnimationFrame(() => {{ window.waterAt = performance.now(); }}));
}}).observe(document, {{ childList: true, subtree: true }});
"""


def _launch(playwright: Playwright, profile: Path, address: str) -> float:
    """The browser begins anew each time, so that neither the worker nor a page is warm. Until it is painted."""
    with _phone(playwright, profile) as context:
        page = context.new_page()
        _slow(page, SLOWED)
        page.add_init_script(WATCH_FOR_WATER)
        page.goto(f"{address}/?from=icon")
        page.wait_for_function("() => window.waterAt > 0")
        at: float = page.evaluate("window.waterAt")
    return at


WATCH_TAPS = """() => {
  window.taps = [];
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.interactionId) window.taps.push(entry.duration);
  }).observe({ type: "event", durationThreshold: 16 });
}"""


def slowest_tap(page: Page, slowed: int) -> float:
    """From a tap to the next paint (W3C, Event Timing): over rooms, runs and nights. Steps of 8 ms; under 16 is 0."""
    _slow(page, slowed)
    page.evaluate(WATCH_TAPS)
    for room in ("Stations", "Ahead", "Changes", "More", "Tonight"):
        page.get_by_role("navigation", name="Rooms").get_by_role("button", name=room).click()
        page.wait_for_selector(".room main")
        page.wait_for_timeout(400)
    for run in page.locator(".lists .row").all()[:5]:
        run.click()
        page.wait_for_timeout(300)
    found: float = page.evaluate("Math.max(0, ...window.taps)")
    _slow(page, 1)
    return found


def _slow(page: Page, rate: int) -> None:
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": rate})


@contextmanager
def _phone(playwright: Playwright, profile: Path | None = None) -> Iterator[BrowserContext]:
    given: dict[str, Any] = {"executable_path": shutil.which("chromium"), "args": ["--no-sandbox"]}
    seen: dict[str, Any] = {"viewport": PHONE, "locale": "en-GB"}
    if profile:
        context = playwright.chromium.launch_persistent_context(profile, **given, **seen)
        yield context
        context.close()
    else:
        browser = playwright.chromium.launch(**given)
        yield browser.new_context(**seen)
        browser.close()


def _lighthouse(address: str) -> dict[str, float]:
    """The median scores of some runs on its phone profile; empty where it cannot be had."""
    reports = [report for _ in range(LIGHTHOUSE_RUNS) if (report := _one_lighthouse(address))]
    for audit in sorted({audit for report in reports for audit in _lost(report)}):
        note(f"Lighthouse: {audit}")
    found = {name: [round(100 * report["categories"][name]["score"]) for report in reports] for name in SCORES}
    return {name: median(scores) for name, scores in found.items() if scores}


def _one_lighthouse(address: str) -> dict[str, Any]:
    """Its report. It is no part of the page's own packages: empty where it cannot be had."""
    categories = f"--only-categories={','.join(SCORES)}"
    command = ["npx", "--yes", LIGHTHOUSE, address, categories, "--output=json", "--quiet"]
    chrome = {"CHROME_PATH": shutil.which("chromium") or ""}
    flags = "--chrome-flags=--headless=new --no-sandbox --disable-gpu"
    done = subprocess.run(
        [*command, flags], cwd=ROOT / "pwa", env={**os.environ, **chrome}, capture_output=True, text=True, timeout=300,
        check=False,
    )  # fmt: skip
    if done.returncode:
        note(f"Lighthouse: {done.stderr.strip()[-200:]}")
        return {}
    report: dict[str, Any] = json.loads(done.stdout)
    return report


def _lost(report: dict[str, Any]) -> Iterator[str]:
    """What took points away."""
    for name in SCORES:
        for part in report["categories"][name]["auditRefs"]:
            audit = report["audits"][part["id"]]
            if part["weight"] and audit["score"] is not None and audit["score"] < 0.9:
                yield f"{name}: {audit['title']} {audit.get('displayValue', '')}".strip()


def _within(found: float, most: float) -> str:
    return "yes" if found <= most else "NO"


def _met(found: float | None, least: int) -> str:
    return "" if found is None else "yes" if found >= least else "NO"
