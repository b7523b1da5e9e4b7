"""A server at an evening in July over a site whose turns go by need."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from builders import a_document_data, a_hydrozone, a_program, a_site, a_station, a_turn
from pengan.web.app import create_app
from pengan.web.settings import Settings
from web.people.crew import SITE, Server

NIGHT = date(2026, 7, 10)
EVENING = datetime.fromisoformat("2026-07-10T20:00:00+01:00")
Row = dict[str, Any]
LAWN: Row = {"soil": "loam", "roots_m": 0.5, "species_factor": 0.8, "watering": "days"}


def weather(day: date, **fields: Any) -> Row:
    return {"table": "weather", "id": f"w{day}", "day": day.isoformat(), **fields}


def soil_water(depletion_mm: float, day: date = NIGHT, **fields: Any) -> Row:
    return {"table": "soil_water", "id": f"h1.{day}", "hydrozone": "h1", "day": day.isoformat(),
            "depletion_mm": depletion_mm, **fields}  # fmt: skip


def a_need_site(*others: Row, zone: Row = LAWN, program: Row | None = None, **site: Any) -> dict[str, Any]:
    """A lawn of 240 m² by need, and roses by hand; normals of 5 mm a day."""
    normals = [{"table": "normals", "id": f"n{month}", "month": month, "et_mm": 5} for month in range(1, 13)]
    return a_document_data(
        site=a_site(SITE, **site),
        hydrozones=[a_hydrozone("h1", **zone), a_hydrozone("h2")],
        stations=[a_station("s1", hydrozone="h1", area_m2=240), a_station("s2", hydrozone="h2", area_m2=100)],
        programs=[a_program("p1", **(program or {}))],
        turns=[a_turn("p1", "s1", run_s=600, mode="need"), a_turn("p1", "s2", run_s=600)],
        others=[*normals, *others],
    )


def serve(folder: Path, data: dict[str, Any]) -> Server:
    """A server whose first document is this one, closed to strangers."""
    document = folder / "first.json"
    document.write_text(json.dumps(data), encoding="utf-8")
    (folder / "app").mkdir(exist_ok=True)
    (folder / "app" / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    settings = Settings(data=folder / "data", first_document=document, app=folder / "app", now=EVENING, effort=4)
    return Server(create_app(settings))


def at(server: Server, moment: str) -> None:
    """Set the server's clock."""
    known = server.shared
    server.app.extensions["pengan"] = replace(
        known, settings=replace(known.settings, now=datetime.fromisoformat(moment))
    )


@pytest.fixture
def lawn(tmp_path: Path) -> Server:
    """The lawn lacks 20 mm this morning, after a week of dry days."""
    week = [weather(NIGHT - timedelta(days=back), et_mm=2.5, rain_mm=0) for back in range(1, 8)]
    return serve(tmp_path, a_need_site(soil_water(20), *week, allowance_pct=45, currency="EUR"))
