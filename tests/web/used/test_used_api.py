"""What was used, read back: sums that agree, meters, faults with their cost, budgets, the year before, and tables."""

from __future__ import annotations

import csv
import io
import json
from datetime import datetime
from typing import Any

import pytest
from flask.testing import FlaskClient
from openpyxl import load_workbook

from pengan.engine.journal.entry import Kind
from pengan.web.alarms.models import Alarm
from pengan.web.used.models import UsedNight, UsedWater
from web.people.crew import SITE
from web.used.conftest import DAY_S, NIGHT, USED_PATH, Nights, a_park

AMOUNTS = ("planned_l", "assumed_l", "beyond_l", "lost_l", "came_l")


@pytest.fixture
def told(nights: Nights) -> Nights:
    """A night in which s2's valve stayed shut, s1 ran twice, and the source's meter was read."""
    starts, run = nights.sheet().starts, next(run for run in nights.sheet().runs if run.station == "s1")
    extra = [
        nights.entry(kind, at, station="s1")
        for kind, at in ((Kind.OPENED, run.end + 7200), (Kind.CLOSED, run.end + 7260))
    ]
    alive = [nights.entry(Kind.ALIVE, at, controller="cab") for at in range(starts, starts + DAY_S, 600)]
    counts = [
        nights.entry(Kind.COUNT, at, supply="town", count_l=litres)
        for at, litres in ((starts, 0), (starts + DAY_S - 60, 2000))
    ]
    nights.told([*nights.as_planned(but=["s2"]), *extra, *alive, *counts])
    nights.pass_days()
    nights.reckon()
    return nights


@pytest.mark.parametrize("by", ["supply", "program", "hydrozone", "month"])
def test_lines_add_up_to_the_whole_by_whatever_they_are_put_together(
    told: Nights, manager: FlaskClient, by: str
) -> None:
    found = told.used(manager, f"by={by}")
    for name in AMOUNTS:
        assert sum(line[name] for line in found["lines"]) == pytest.approx(found["total"][name])
    assert found["total"] == {
        "key": "", "name": "", "planned_l": 2600, "delivered_l": 1800, "assumed_l": 0, "beyond_l": 60, "lost_l": 800,
        "lost": [{"why": "not_opened", "volume_l": 800}], "came_l": 1860, "before_l": None, "allowed_l": None,
    }  # fmt: skip


def test_records_have_their_names_and_removed_ones_none(told: Nights, manager: FlaskClient) -> None:
    lines = {line["key"]: line["name"] for line in told.used(manager, "by=hydrozone")["lines"]}
    assert lines == {"": "", "lawn": "Lawn"}


def test_a_meter_tells_what_went_nowhere(told: Nights, manager: FlaskClient) -> None:
    found = told.used(manager)
    (meter,) = found["meters"]
    assert (meter["supply"], meter["counted_l"], meter["came_l"], meter["unaccounted_l"]) == ("town", 2000, 1860, 140)
    assert found["unaccounted_l"] == 140


def test_the_nights_that_are_asked_for_and_no_others(told: Nights, manager: FlaskClient) -> None:
    assert told.used(manager, f"from={NIGHT}&until={NIGHT}")["nights"] == 1
    assert told.used(manager, "from=2026-07-11&until=2026-07-11")["nights"] == 0


def test_a_year_that_has_no_night_yet_is_empty_and_no_fault(told: Nights, manager: FlaskClient) -> None:
    found = told.used(manager, "from=2026-12-31")
    assert (found["until"], found["nights"], found["lines"]) == ("2026-12-31", 0, [])


@pytest.mark.parametrize("span", ["from=2026-07-11&until=2026-07-10", "from=1990-01-01&until=2026-07-10"])
def test_a_span_that_is_none_is_refused(told: Nights, manager: FlaskClient, span: str) -> None:
    answer = manager.get(f"{USED_PATH}?{span}")
    assert (answer.status_code, answer.json["code"]) == (422, "used.wrong_span")


@pytest.mark.parametrize("query", ["by=colour", "from=yesterday", "until=2026-02-30"])
def test_what_cannot_be_read_is_named(nights: Nights, manager: FlaskClient, query: str) -> None:
    assert manager.get(f"{USED_PATH}?{query}").status_code == 422


def test_budget_takes_what_came_and_a_month_is_held_against_it(told: Nights, manager: FlaskClient) -> None:
    told.put(a_park(allowance_pct=50))
    months = {line["key"]: line for line in told.used(manager, "by=month")["lines"]}
    assert sorted(months) == [f"2026-{month:02d}" for month in range(1, 8)]
    assert (months["2026-07"]["planned_l"], months["2026-07"]["allowed_l"]) == (2600, pytest.approx(31 * 5 * 0.5 * 240))
    lines = manager.get(f"/api/sites/{SITE}/need/budget/2026").json["lines"]
    assert next(one["used_l"] for one in lines if one["month"] == "2026-07") == 1260


def test_the_year_before_stands_beside(told: Nights, manager: FlaskClient) -> None:
    with told.server.shared.database.session() as session, session.begin():
        amounts = {
            f"{why}_ml": 0
            for why in ("beyond", "power", "shut", "stopped", "not_opened", "opened_late", "closed_early", "low_flow")
        }
        session.add(UsedNight(site=SITE, night="2025-07-02", told=True, stale=False, said="[]", reckoned_at=0))
        session.add(
            UsedWater(
                site=SITE, night="2025-07-02", supply="north", program="p1", hydrozone="lawn", planned_ml=9_000_000,
                delivered_ml=8_000_000, assumed_ml=1_000_000, **amounts,
            )
        )  # fmt: skip
    found = told.used(manager, "by=month")
    assert (found["lines"][0]["key"], found["lines"][0]["before_l"], found["total"]["before_l"]) == (
        "2026-07",
        9000,
        9000,
    )


def an_alarm(told: Nights, id: str, kind: str, size_lpm: float, spells: dict[str, Any], **fields: Any) -> None:
    said = json.dumps(
        {"code": "finding.unasked", "params": {"supply": "town", "size_lpm": size_lpm, "since_at": told.now}}
    )
    with told.server.shared.database.session() as session, session.begin():
        session.add(
            Alarm(
                site=SITE, id=id, change=1, night=min(spells), last_night=max(spells), finding="excess:town:1",
                kind=kind, gravity=1, supply="town", size_lpm=size_lpm, said=said, spells=json.dumps(spells),
                culprits="[]", trial="[]", times=1, opened_at=told.now, **fields,
            )
        )  # fmt: skip


def test_what_a_fault_cost_is_the_dearest_of_the_month_s_water(told: Nights, manager: FlaskClient) -> None:
    tiers = [
        {"table": "tiers", "id": "t1", "up_to_l": 2000, "price": 1},
        {"table": "tiers", "id": "t2", "price": 10},
    ]
    told.put(a_park(*tiers, currency="EUR"))
    since = told.now - DAY_S
    an_alarm(told, "escaped", "too_much", 10, {NIGHT: [[since, since + 60, since + 3600]]}, ended_at=since + 3600)
    an_alarm(told, "kept", "too_little", 5, {NIGHT: [[since, since, since + 600]]}, ended_at=since + 600)
    an_alarm(told, "silent", "silent", 0, {NIGHT: [[since, since, None]]})
    faults = {one["alarm"]: one for one in told.used(manager)["faults"]}
    assert faults.keys() == {"escaped", "kept"}
    assert (faults["escaped"]["escaped_l"], faults["kept"]["kept_l"]) == (600, 50)
    # 1860 L came and 600 L escaped: of the 2460 L the dearest 600 are 460 at 10 and 140 at 1 a cubic metre.
    assert (faults["escaped"]["cost"], faults["kept"]["cost"]) == ("4.74", None)


def test_what_has_not_ended_counts_until_now(told: Nights, manager: FlaskClient) -> None:
    an_alarm(told, "open", "unasked", 6, {"2026-07-11": [[told.now - 600, told.now - 500, None]]})
    (fault,) = told.used(manager, "until=2026-07-11&language=en")["faults"]
    assert (fault["escaped_l"], fault["until"], fault["cost"]) == (60, None, None)
    assert "(Jul 11, 2026)" in fault["said"]["detail"]


def test_an_alarm_that_ended_with_its_night_costs_no_more_than_that_night(told: Nights, manager: FlaskClient) -> None:
    ends = told.sheet().ends
    told.pass_days()
    an_alarm(
        told, "leak", "unasked", 6, {NIGHT: [[ends - 1200, ends - 1100, None]], "2026-07-11": [[ends, ends, None]]}
    )
    an_alarm(told, "over", "unasked", 6, {NIGHT: [[ends - 1200, ends - 1100, None]]}, ended_at=ends - 600)
    faults = {one["alarm"]: one["escaped_l"] for one in told.used(manager, f"from={NIGHT}&until={NIGHT}")["faults"]}
    assert faults == {"leak": 120, "over": 60}
    whole = {one["alarm"]: one["escaped_l"] for one in told.used(manager)["faults"]}
    assert whole == {"leak": 120 + 24 * 360, "over": 60}


def test_the_table_says_the_same_in_litres(told: Nights, manager: FlaskClient) -> None:
    answer = manager.get(f"{USED_PATH}/table.csv?by=supply")
    head, *rows = csv.reader(io.StringIO(answer.text))
    lines = [dict(zip(head, row, strict=True)) for row in rows if len(row) == len(head)]
    assert [(line["key"], line["came_l"], line["lost_not_opened_l"]) for line in lines] == [
        ("north", "1260.0", "800.0"), ("south", "600.0", "0.0"), ("", "1860.0", "800.0"),
    ]  # fmt: skip
    assert rows[-1][0] == "town"
    assert rows[-1][-1] == "140.0"


def test_the_book_is_in_the_reader_s_language_and_units(told: Nights, manager: FlaskClient) -> None:
    answer = manager.get(f"{USED_PATH}/table.xlsx?by=hydrozone&language=ar-XB")
    book = load_workbook(io.BytesIO(answer.data))
    assert [sheet.sheet_view.rightToLeft for sheet in book.worksheets] == [True, True, True]
    plain = load_workbook(io.BytesIO(manager.get(f"{USED_PATH}/table.xlsx?by=hydrozone&language=en").data))
    water = [[cell.value for cell in row] for row in plain.worksheets[0].iter_rows()]
    assert water[0][1] == "Planned (m³)"
    assert [row[:2] for row in water[1:]] == [["None of them", 1.4], ["Lawn", 1.2], ["The whole site", 2.6]]


def test_what_people_typed_is_no_formula(told: Nights, manager: FlaskClient) -> None:
    data = a_park()
    next(one for one in data["records"] if one["id"] == "lawn")["name"] = "=1+1"
    told.put(data)
    assert ",'=1+1," in manager.get(f"{USED_PATH}/table.csv?by=hydrozone").text
    book = load_workbook(io.BytesIO(manager.get(f"{USED_PATH}/table.xlsx?by=hydrozone&language=en").data))
    assert book.worksheets[0]["A3"].data_type == "s"


def test_years_are_answered_from_what_is_written_down(nights: Nights, manager: FlaskClient) -> None:
    """A thousand nights of forty rows: what is asked of the database is sums, and no sheet or journal is read."""
    starts = datetime.fromisoformat("2023-10-01T12:00:00+00:00").timestamp()
    amounts = dict.fromkeys(
        [
            f"{why}_ml"
            for why in (
                "assumed",
                "beyond",
                "power",
                "shut",
                "stopped",
                "not_opened",
                "opened_late",
                "closed_early",
                "low_flow",
            )
        ],
        0,
    )
    with nights.server.shared.database.session() as session, session.begin():
        for number in range(1000):
            night = datetime.fromtimestamp(starts + number * DAY_S).date().isoformat()
            session.add(UsedNight(site=SITE, night=night, told=True, stale=False, said="[]", reckoned_at=0))
            session.add_all(
                UsedWater(
                    site=SITE, night=night, supply="north", program=f"p{place}", hydrozone="lawn", planned_ml=1000,
                    delivered_ml=1000, **amounts,
                )
                for place in range(4)
            )  # fmt: skip
    found = nights.used(manager, "from=2023-10-01&until=2026-06-30&by=program")
    assert [(line["key"], line["planned_l"]) for line in found["lines"]] == [(f"p{place}", 1000) for place in range(4)]
