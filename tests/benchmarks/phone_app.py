"""The planner as the app loads it: its size on the line, when it is ready, and how soon an effect is known.

In Chromium over the real server, and under Node. A browser's throttling of the processor does not reach workers, so
all of it is measured at full speed only; a phone of some years takes four to six times as long.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import tempfile
from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import Browser, sync_playwright

from browser.standing import Standing
from golden.built import app_folder, worker_address
from golden.nights import DEMO
from golden.work_out import node

from .table import Table, note, seconds

IN_NODE = Path(__file__).with_name("phone_effect.mjs")
IN_PAGE = Path(__file__).with_name("phone_effect.js")
MOST_MB, MOST_READY_S, MOST_EFFECT_S = 4.2, 4.0, 0.3
READY = "The planner is on this phone"
NIGHT, EFFORT, TIMES = "2026-10-24", 3, 7
"""The night of the clock change, and the effort that the app takes for an effect."""


def show() -> None:
    table = Table("The planner in the app, at full speed", ("", "measured", "budget", "reached"), 34)
    size = compressed_mb()
    _row(table, "files on the line, Brotli", f"{size:.2f} MB", f"{MOST_MB} MB", size <= MOST_MB)
    ready, in_browser = _in_chromium()
    _row(table, "ready after first paint, Chromium", seconds(ready), seconds(MOST_READY_S), ready <= MOST_READY_S)
    for where, times in (("Chromium", in_browser), ("Node", _in_node())):
        effect = median(times)
        _row(table, f"an edit's effect, warm, {where}", seconds(effect), "0.300 s", effect <= MOST_EFFECT_S)
    note("An effect: the demo night anew, one turn a third longer, from the sheet it had. Median of some.")
    note("A browser's throttling does not reach workers: there is no figure for a slowed processor.")


def compressed_mb() -> float:
    """What a phone loads once, as the server sends it to a browser."""
    return sum(file.stat().st_size for file in (app_folder() / "planner").rglob("*.br")) / 1e6


def _row(table: Table, what: str, measured: str, budget: str, good: bool) -> None:
    table.row(what, measured, budget, "yes" if good else "NO")


def _in_chromium() -> tuple[float, list[float]]:
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        words = ["--no-sandbox", "--disable-background-networking"]
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=words)
        server = Standing(Path(folder))
        try:
            server.start()
            return median(_ready_s(browser, server) for _ in range(3)), _effects_s(browser, server)
        finally:
            server.stop()
            browser.close()


def _ready_s(browser: Browser, server: Standing) -> float:
    """Seconds from the first paint until the page says that the planner is there: empty caches, no service worker."""
    context = browser.new_context(service_workers="block", locale="en-GB")
    page = context.new_page()
    page.add_init_script(f"({_WATCH})({json.dumps(READY)})")
    page.goto(f"{server.address}/more/about")
    page.get_by_text(READY).wait_for(timeout=120_000)
    took = float(page.evaluate("(plannerReadyAt - performance.getEntriesByType('paint')[0].startTime) / 1000"))
    context.close()
    return took


_WATCH = """(words) => addEventListener("DOMContentLoaded", () => {
  new MutationObserver(() => {
    if (!window.plannerReadyAt && document.body.innerText.includes(words)) window.plannerReadyAt = performance.now();
  }).observe(document.body, { childList: true, characterData: true, subtree: true });
})"""


def _effects_s(browser: Browser, server: Standing) -> list[float]:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(f"{server.address}/api/clock")
    script = f"([worker, ...words]) => {{ {IN_PAGE.read_text('utf-8')}; return effectTimes(worker, ...words); }}"
    times: list[float] = page.evaluate(script, [worker_address(), *_words()])
    context.close()
    return times


def _in_node() -> list[float]:
    with tempfile.TemporaryDirectory() as folder:
        words = Path(folder) / "words.json"
        words.write_text(json.dumps(_words()), "utf-8")
        command = [node(), str(IN_NODE), str(app_folder()), str(words)]
        done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    times: list[float] = json.loads(done.stdout)
    return times


def _words() -> list[Any]:
    data = json.loads(DEMO.read_text("utf-8"))
    edited = {**data, "records": [dict(record) for record in data["records"]]}
    turn = next(record for record in edited["records"] if record["table"] == "turns")
    turn["run_s"] = turn["run_s"] * 4 // 3
    return [data, edited, NIGHT, EFFORT, TIMES]
