"""The water need over HTTP: nights, the work behind turns, seasons, suggestions, budgets."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from pengan.web.need.models import NightWatering
from web.need.conftest import a_need_site, serve, soil_water
from web.people.crew import SITE, Server

NEED = f"/api/sites/{SITE}/need"


def ask(server: Server, path: str, language: str = "en") -> Any:
    answer = server.person("crew").get(f"{NEED}{path}?language={language}")
    assert answer.status_code == 200, answer.text
    return answer.json


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_a_night_tells_what_each_planting_needs_and_what_that_makes_for_its_stations(lawn: Server) -> None:
    """20 mm lacking and 5 × 0.8 = 4 mm a day; 15 mm/h at an evenness of 0.65 (see the engine's own test)."""
    told = ask(lawn, "/tonight")
    assert told["night"] == "2026-07-10"
    zone = told["hydrozones"][0]
    assert (zone["hydrozone"], zone["tonight_mm"]) == ("h1", pytest.approx(24))
    assert zone["decision"]["code"] == "need.tonight"
    assert "24 mm" in zone["decision"]["detail"].replace("\u2068", "").replace("\u2069", "")
    assert zone["stations"][0]["run_s"] == pytest.approx(3600 * 24 / 0.79 / 15, abs=1)
    assert "planning aids" in told["caution"]


def test_a_turns_work_leads_from_weather_to_minutes_and_is_a_table_too(lawn: Server) -> None:
    told = ask(lawn, "/2026-07-10/turns/p1.s1")
    known: set[str] = set()
    for figure in told["figures"]:
        assert set(figure["inputs"]) <= known
        known.add(figure["key"])
    run = next(figure for figure in told["figures"] if figure["key"] == "run")
    assert (run["name"], run["unit"], run["value"]) == ("Run time", "s", pytest.approx(7291, abs=2))
    answer = lawn.person("crew").get(f"{NEED}/2026-07-10/turns/p1.s1/table.csv?language=en")
    assert answer.mimetype == "text/csv"
    rows = table(answer.text)
    assert [(row["key"], row["name"]) for row in rows] == [(one["key"], one["name"]) for one in told["figures"]]
    assert float(next(row["value"] for row in rows if row["key"] == "run")) == run["value"]


def test_a_figure_is_called_as_the_readers_language_has_it(lawn: Server) -> None:
    spoken = ask(lawn, "/2026-07-10/turns/p1.s1", language="en-XA")
    plain = ask(lawn, "/2026-07-10/turns/p1.s1")
    pairs = list(zip(spoken["figures"], plain["figures"], strict=True))
    assert [one["value"] for one, _other in pairs] == [other["value"] for _one, other in pairs]
    assert all(one["name"] != other["name"] for one, other in pairs)


def test_what_was_written_down_of_past_nights_goes_into_seasons_and_budgets(tmp_path: Path) -> None:
    """10 mm lacking on the 6th, 4 mm a day, 9 mm of useful water in the night of the 7th, counted on the 8th."""
    server = serve(tmp_path, a_need_site(soil_water(10, day=_day(6)), allowance_pct=45))
    with server.shared.database.session() as session, session.begin():
        for day, applied in ((6, 0), (7, 10), (8, 0), (9, 0)):
            session.add(
                NightWatering(
                    site=SITE, hydrozone="h1", night=f"2026-07-0{day}", volume_l=applied * 240.0, applied_mm=applied,
                    ran_off_mm=0, uneven_mm=applied / 10,
                )
            )  # fmt: skip
    told = ask(server, "/hydrozones/h1/season")
    assert [day["day"] for day in told["days"]] == [f"2026-07-{number:02}" for number in range(6, 11)]
    assert [day["depletion_mm"] for day in told["days"]] == pytest.approx([14, 18, 13, 17, 21])
    assert {day["rung"] for day in told["days"]} == {"normal"}
    answer = server.person("crew").get(f"{NEED}/hydrozones/h1/season.csv?until=2026-07-08")
    assert [float(row["depletion_mm"]) for row in table(answer.text)] == pytest.approx([14, 18, 13])
    july = next(line for line in ask(server, "/budget/2026")["lines"] if line["month"] == "2026-07")
    assert (july["hydrozone"], july["used_l"]) == ("h1", 2400)
    assert july["allowed_l"] == pytest.approx(31 * 5 * 0.45 * 240)


def _day(number: int) -> date:
    return date(2026, 7, number)


def test_nights_that_are_over_count_as_their_sheets_have_them(lawn: Server) -> None:
    """The sheet of the 10th is asked for on the 10th; on the 11th it has run: ten minutes of 60 L/min for the roses."""
    crew = lawn.person("crew")
    sheet = crew.get(f"/api/sites/{SITE}/nights/tonight").json
    before = {
        (line["month"], line["hydrozone"]): line["used_l"] for line in crew.get(f"{NEED}/budget/2026").json["lines"]
    }
    lawn.later(days=1)
    roses = sum(run["volume_l"] for run in sheet["runs"] if run["station"] == "s2")
    lines = crew.get(f"{NEED}/budget/2026").json["lines"]
    used = next(line["used_l"] for line in lines if (line["month"], line["hydrozone"]) == ("2026-07", "h2"))
    assert before["2026-07", "h2"] == 0
    assert used == roses > 0


def test_a_cool_week_is_suggested_to_all_and_taken_by_none(lawn: Server) -> None:
    told = ask(lawn, "/suggestions")
    assert [(one["program"], one["from_pct"], one["to_pct"], one["by_itself"]) for one in told["suggestions"]] == [
        ("p1", 100, 50, False)
    ]


@pytest.mark.parametrize(
    ("path", "code"),
    [
        ("/someday", "web.no_such_night"),
        ("/2031-01-01", "web.night_out_of_reach"),
        ("/tonight/turns/none", "need.no_such_turn"),
        ("/tonight/turns/p1.s2", "need.turn_by_hand"),
        ("/hydrozones/none/season", "need.no_such_hydrozone"),
        ("/hydrozones/h2/season", "need.no_balance"),
        ("/budget/12", "need.no_such_year"),
        ("/budget/9999", "need.no_such_year"),
    ],
)
def test_what_is_not_there_is_said(lawn: Server, path: str, code: str) -> None:
    answer = lawn.person("crew").get(f"{NEED}{path}")
    assert (answer.status_code, answer.json["code"]) == (404, code)


def test_strangers_read_nothing(lawn: Server) -> None:
    assert lawn.browser().get(f"{NEED}/tonight").json["code"] == "web.no_such_site"


def test_a_month_s_water_has_its_price_step_by_step_and_its_plan_a_price_too(tmp_path: Path) -> None:
    """2400 L used: the first 2000 L at 0.50 a cubic metre, the rest at 2.00, and 3.00 a month before any flows."""
    site = a_need_site(
        {"table": "tiers", "id": "a", "up_to_l": 2000, "price": 0.5}, {"table": "tiers", "id": "b", "price": 2},
        allowance_pct=45, currency="EUR", standing_charge=3,
    )  # fmt: skip
    server = serve(tmp_path, site)
    with server.shared.database.session() as session, session.begin():
        session.add(NightWatering(site=SITE, hydrozone="h1", night="2026-07-07", volume_l=2400.0))
    told = ask(server, "/budget/2026")
    july = next(cost for cost in told["costs"] if cost["month"] == "2026-07")
    assert (july["used_l"], july["amount"]) == (2400, "4.80")
    assert [(step["volume_l"], step["price"]) for step in july["steps"]] == [(2000, "0.5"), (400, "2.0")]
    assert {cost["amount"] for cost in told["costs"] if cost["month"] != "2026-07"} == {None}
    planned = sum(line["planned_l"] for line in told["lines"] if line["month"] == "2026-07")
    assert july["planned_l"] == planned > 2000
    assert float(july["planned_amount"]) == pytest.approx(3 + 1 + (planned - 2000) / 1000 * 2, abs=0.01)


def test_a_budget_is_a_table_too(tmp_path: Path) -> None:
    site = a_need_site({"table": "tiers", "id": "a", "price": 2}, allowance_pct=45, currency="EUR")
    h1 = next(one for one in site["records"] if one["id"] == "h1")
    server = serve(tmp_path, site)
    answer = server.person("crew").get(f"{NEED}/budget/2026/table.csv")
    assert answer.mimetype == "text/csv"
    rows, told = table(answer.text), ask(server, "/budget/2026")
    lines = [row for row in rows if row["hydrozone"]]
    assert [(row["month"], row["hydrozone"]) for row in lines] == [
        (line["month"], line["hydrozone"]) for line in told["lines"]
    ]
    assert {row["name"] for row in lines if row["hydrozone"] == "h1"} == {h1["name"]}
    assert [float(row["allowed_l"]) for row in lines] == [line["allowed_l"] for line in told["lines"]]
    whole = [row for row in rows if not row["hydrozone"]]
    assert [(row["month"], row["planned_cost"], row["currency"]) for row in whole] == [
        (cost["month"], cost["planned_amount"], "EUR") for cost in told["costs"]
    ]
    assert {row["cost"] for row in whole} == {""}, "nothing was used yet"
