"""Night sheets over the API: worked out once, then handed out."""

from __future__ import annotations

import copy
import json
from datetime import date
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator

from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import dumps, sheet_schema
from pengan.web.extensions import KEY
from pengan.web.nights import operations
from pengan.web.sites.operations import put_document

NIGHTS = "/api/sites/quinta-das-mares/nights"
TOMORROW = "2026-10-26"


def test_tonight_is_what_the_engine_plans(client: FlaskClient, demo_data: dict[str, Any]) -> None:
    served = client.get(f"{NIGHTS}/tonight")
    assert served.text == dumps(plan_night(read_document(demo_data), date(2026, 10, 24), effort=4))


def test_a_sheet_keeps_to_its_schema(client: FlaskClient) -> None:
    sheet = client.get(f"{NIGHTS}/2026-10-25").json
    assert sheet["night"] == "2026-10-25"
    assert len(sheet["runs"]) > 50
    assert list(Draft202012Validator(sheet_schema()).iter_errors(sheet)) == []


def test_a_night_is_planned_once(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    first = client.get(f"{NIGHTS}/tonight")

    def never(*_: object, **__: object) -> NightSheet:
        raise AssertionError("planned again")

    monkeypatch.setattr(operations, "plan_night", never)
    again = client.get(f"{NIGHTS}/2026-10-24")
    kept = client.get(f"{NIGHTS}/tonight", headers={"If-None-Match": first.headers["ETag"]})
    assert (again.text, kept.status_code) == (first.text, 304)


def test_a_changed_document_is_planned_anew_from_the_sheet_before(
    app: Flask, client: FlaskClient, demo_data: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[NightSheet | None] = []

    def watched(*words: Any, before: NightSheet | None, **named: Any) -> NightSheet:
        seen.append(before)
        return plan_night(*words, before=before, **named)

    monkeypatch.setattr(operations, "plan_night", watched)
    first = client.get(f"{NIGHTS}/{TOMORROW}")
    put_longer(app, demo_data)
    second = client.get(f"{NIGHTS}/{TOMORROW}")
    assert [sheet and dumps(sheet) for sheet in seen] == [None, first.text]
    assert second.text != first.text
    assert second.json["moved_pct"] is not None


def test_of_a_night_under_way_only_the_rest_is_planned_anew(
    app: Flask, client: FlaskClient, demo_data: dict[str, Any]
) -> None:
    first = client.get(f"{NIGHTS}/tonight").json
    now = int(app.extensions[KEY].settings.now.timestamp())
    put_longer(app, demo_data)
    second = client.get(f"{NIGHTS}/tonight").json
    ran = [[run for run in sheet["runs"] if run["end"] <= now] for sheet in (first, second)]
    assert ran[0] and ran[0] == ran[1]
    assert second["runs"] != first["runs"]


def put_longer(app: Flask, data: dict[str, Any]) -> None:
    """Every turn a minute longer."""
    changed = copy.deepcopy(data)
    for record in changed["records"]:
        if record["table"] == "turns":
            record["run_s"] += 60
    with app.extensions[KEY].database.session() as session:
        put_document(session, changed)


def test_the_night_before_noon_is_still_last_night(client: FlaskClient, app: Flask) -> None:
    found = client.get(f"{NIGHTS}/tonight/clock").json
    assert found["night"] == "2026-10-24"


def test_the_clock_of_a_night_tells_the_change_and_the_light(client: FlaskClient) -> None:
    """The change is at 01:00 UTC (EU Directive 2000/84/EC: last Sunday of October, at 1.00 a.m. GMT)."""
    found = client.get(f"{NIGHTS}/2026-10-24/clock").json
    assert found["changes"] == [{"at": 1792890000, "before_s": 3600, "after_s": 0}]
    assert (found["offset_s"], found["ends"] - found["starts"]) == (3600, 25 * 3600)
    assert found["starts"] < found["sunset"] < found["sunrise"] < found["ends"]


@pytest.mark.parametrize(("night", "code"), [("yesterday", "web.no_such_night"), ("2026-13-01", "web.no_such_night")])
def test_what_is_no_date_is_no_night(client: FlaskClient, night: str, code: str) -> None:
    answer = client.get(f"{NIGHTS}/{night}")
    assert (answer.status_code, answer.json["code"], answer.json["params"]) == (404, code, {"given": night})


@pytest.mark.parametrize("night", ["2026-10-16", "2027-10-26"])
def test_nights_out_of_reach_say_what_is_in_reach(client: FlaskClient, night: str) -> None:
    answer = client.get(f"{NIGHTS}/{night}")
    assert answer.status_code == 404
    assert answer.json["params"] == {
        "night_date": night,
        "earliest_date": "2026-10-17",
        "latest_date": "2027-10-25",
    }


def test_a_sheet_is_canonical_json(client: FlaskClient) -> None:
    body = client.get(f"{NIGHTS}/tonight").text
    assert body == json.dumps(json.loads(body), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
