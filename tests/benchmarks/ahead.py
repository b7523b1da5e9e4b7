"""The demo site's next fourteen nights, from the document to the sheets, as `pengan ahead` works them out."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.terminal.planning import plan_ahead, site_of

from .clockwork import timed
from .table import Table, note, seconds

DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "site.json"
STARTS = (date(2026, 7, 14), date(2026, 10, 20), date(2027, 3, 20))
NIGHTS, MOST_S = 14, 0.5


def show() -> None:
    data = json.loads(DEMO.read_text(encoding="utf-8"))
    document, read_s = timed(lambda: read_document(data), 3)
    site = site_of(document, None)
    table = Table(
        "Looking fourteen nights ahead: the demo site", ("first night", "runs", "not all fits", "time", "reached")
    )
    for start in STARTS:
        sheets, time_s = timed(lambda start=start: plan_ahead(site, start, NIGHTS, None), 3)  # type: ignore[misc]
        short = sum(bool(sheet.shortfalls) for sheet in sheets)
        runs = sum(len(sheet.runs) for sheet in sheets)
        table.row(start.isoformat(), str(runs), str(short), seconds(time_s), "yes" if time_s <= MOST_S else "NO")
    _, full_s = timed(lambda: plan_night(document, STARTS[0] + timedelta(1)))
    note(f"Reading the document takes {seconds(read_s)}, one night at the default effort {seconds(full_s)}.")
