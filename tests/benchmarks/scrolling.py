"""Scrolling the list of a site with two thousand stations: whether each frame is there in time."""

from __future__ import annotations

import json
from pathlib import Path
from statistics import quantiles
from tempfile import TemporaryDirectory
from typing import Any

from playwright.sync_api import Page, Playwright

from browser.codes import let_in
from browser.standing import DEMO, Standing

from .table import Table, note

STATIONS = 2000
FRAME_MS = 1000 / 60
LATE = 1.5
"""A frame that takes longer than so many is one that was missed."""
MOST_LATE_PCT = 1.0
SECONDS, STEP_PX = 6, 60
_SCROLL = f"""() => new Promise((done) => {{
  const spans = [];
  let last = 0;
  const step = (now) => {{
    if (last) spans.push(now - last);
    last = now;
    window.scrollBy(0, {STEP_PX});
    if (spans.length < {SECONDS * 60}) requestAnimationFrame(step);
    else done({{ spans, nodes: document.querySelectorAll("*").length, top: window.scrollY }});
  }};
  requestAnimationFrame(step);
}})"""


def rows(table: Table, playwright: Playwright, phone: Any) -> None:
    """Adds what was measured, at full speed and slowed four times."""
    with TemporaryDirectory() as folder:
        server = Standing(Path(folder), _large_site(Path(folder) / "large.json"))
        server.start()
        try:
            with phone(playwright) as context:
                let_in(context, server, "crew", "Inês Falcão")
                page = context.new_page()
                page.goto(f"{server.address}/stations")
                page.wait_for_selector(".virtual-row >> nth=8")
                page.wait_for_timeout(6000)  # the planner has loaded
                for slowed in (1, 4):
                    _row(table, page, slowed)
        finally:
            server.stop()


def _row(table: Table, page: Page, slowed: int) -> None:
    page.evaluate("window.scrollTo(0, 0)")
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slowed})
    seen = page.evaluate(_SCROLL)
    assert seen["top"] > SECONDS * STEP_PX * 20, "nothing was scrolled"
    spans = seen["spans"]
    late = 100 * sum(span > LATE * FRAME_MS for span in spans) / len(spans)
    name = f"frames missed, scrolling {STATIONS} stations, %" + ("" if slowed == 1 else f", slowed {slowed}×")
    reached = "" if slowed > 1 else "yes" if late <= MOST_LATE_PCT else "NO"
    table.row(name, f"{late:.1f}", f"{MOST_LATE_PCT:.0f}" if slowed == 1 else "", reached)
    slow = quantiles(spans, n=100)[94]
    note(f"scrolling, slowed {slowed}×: 95 of a hundred frames within {slow:.0f} ms, {seen['nodes']} nodes.")


def _large_site(path: Path) -> Path:
    """The demo site with its stations over and over."""
    data = json.loads(DEMO.read_text("utf-8"))
    stations = [record for record in data["records"] if record["table"] == "stations"]
    more = (
        {**record, "id": f"{record['id']}-{copy}", "number": f"{record['number']}.{copy}"}
        for copy in range(1, STATIONS // len(stations) + 1)
        for record in stations
    )
    data["records"] += list(more)[: STATIONS - len(stations)]
    path.write_text(json.dumps(data), "utf-8")
    return path
