"""`pengan used`: the page's figures in a terminal, in the reader's language and units, and the page's table."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from pengan.cli import main
from pengan.web.alarms.models import Alarm
from pengan.web.database import Database
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from pengan.web.used.models import UsedMeter, UsedNight, UsedWater
from pengan.web.used.shown import COLUMNS
from web.people.crew import SITE
from web.used.conftest import a_park

LOST = ("power", "shut", "stopped", "not_opened", "opened_late", "closed_early", "low_flow")
NOW = "2026-07-12T20:00:00+01:00"
LEARNED = {"code": "used.by_learned_flows", "params": {"night_date": "2026-07-10", "learned": 1, "stations": 3}}


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder: a night of June of which nothing was told, and one of July with a loss, a meter and an alarm."""
    database = Database(Settings(data=tmp_path).database_url)
    database.upgrade()
    tiers = [{"table": "tiers", "id": "t1", "price": 2}]
    with database.session() as session:
        put_document(session, a_park(*tiers, currency="EUR"))
        with session.begin():
            session.add_all([_night("2026-06-30", False), _night("2026-07-10", True, LEARNED)])
            session.add_all([
                _water("2026-06-30", "north", "lawn", planned=1_200_000, assumed=1_200_000),
                _water("2026-07-10", "north", "lawn", planned=1_200_000, delivered=900_000, power=300_000),
                _water("2026-07-10", "south", "", planned=600_000, delivered=600_000),
            ])  # fmt: skip
            session.add(_meter("2026-07-10"))
            session.add(_leak())
    database.engine.dispose()
    return tmp_path


def _night(night: str, told: bool, *said: object) -> UsedNight:
    return UsedNight(site=SITE, night=night, told=told, stale=False, said=json.dumps(said), reckoned_at=0)


def _water(night: str, supply: str, hydrozone: str, **ml: int) -> UsedWater:
    names = ("planned", "delivered", "assumed", "beyond", *LOST)
    amounts = {f"{name}_ml": ml.get(name, 0) for name in names}
    return UsedWater(site=SITE, night=night, supply=supply, program="p1", hydrozone=hydrozone, **amounts)


def _meter(night: str) -> UsedMeter:
    starts = int(datetime.fromisoformat(f"{night}T22:00:00+01:00").timestamp())
    return UsedMeter(
        site=SITE, night=night, supply="town", first_at=starts, first_ml=0, first_is_new=False, last_at=starts + 7200,
        last_ml=1_600_000, counted_ml=1_600_000, came_ml=1_500_000, before_ml=0, after_ml=0, ends_ml=None, said="[]",
    )  # fmt: skip


def _leak() -> Alarm:
    """10 L/min for 100 minutes on the night of the 10th."""
    began = int(datetime.fromisoformat("2026-07-10T22:00:00+01:00").timestamp())
    said = {"code": "finding.unasked", "params": {"supply": "town", "size_lpm": 10, "since_at": began}}
    return Alarm(
        site=SITE, id="a1", change=1, night="2026-07-10", last_night="2026-07-10", finding="excess:town:1",
        kind="too_much", gravity=1, supply="town", size_lpm=10, said=json.dumps(said),
        spells=json.dumps({"2026-07-10": [[began, began, began + 6000]]}), culprits="[]", trial="[]", times=0,
        opened_at=began, ended_at=began + 6000,
    )  # fmt: skip


def call(data: Path, *words: str, **environ: str) -> Result:
    env = {"PENGAN_DATA": str(data), "PENGAN_NOW": NOW, "PENGAN_LANGUAGE": "en", **environ}
    return CliRunner().invoke(main, ["used", SITE, *words], env=env)


def lines(found: Result) -> list[str]:
    assert found.exit_code == 0, found.output
    return [line.rstrip() for line in found.output.splitlines()]


def row(found: Result, head: str) -> Sequence[str]:
    """The cells of a line of the table."""
    return next(line for line in lines(found) if line.startswith(head)).split("  ")


def test_the_year_so_far_by_months_with_what_is_known_of_it(data: Path) -> None:
    told = lines(call(data))
    assert told[0] == "Test site: what was used from Jan 1, 2026 to Jul 11, 2026"
    assert told[1:3] == [
        "1 night told of by its valves.",
        "Nothing was told of 1 night: what was delivered is not known, and its plan is taken to have come.",
    ]
    assert [line.split()[:2] for line in told[4:8]] == [
        ["Month", "Planned"], ["June", "2026"], ["July", "2026"], ["The", "whole"],
    ]  # fmt: skip
    assert "  No power  300 L" in told


def test_meters_faults_and_learned_flows_are_told(data: Path) -> None:
    output = call(data).output
    assert "Town, from Jul 10, 2026, 10:00 PM to Jul 11, 2026, 12:00 AM: counted 1.6 m³" in output.replace(
        "\u202f", " "
    )
    assert "1 m³ escaped; without it the months’ bills would have been €2.00 less." in output
    assert "Nights in which stations went by the flow learned from their meter: 1." in output
    assert output.rstrip().endswith("The water authority's rules and local law stand above them.")


def test_a_month_holds_its_own_nights_alone(data: Path) -> None:
    june = call(data, "--month", "2026-06", "--by", "hydrozone")
    assert lines(june)[0].endswith("from Jun 1, 2026 to Jun 30, 2026")
    assert [cell.strip() for cell in row(june, "Lawn") if cell] == ["Lawn", "1.2 m³", "—", "1.2 m³", "0 L", "1.2 m³"]
    assert lines(call(data, "--month", "2026-07"))[0].endswith("from Jul 1, 2026 to Jul 11, 2026")
    assert "No night of these is over and reckoned up yet." in call(data, "--month", "2026-08").output


def test_a_span_by_supply(data: Path) -> None:
    found = call(data, "--from", "2026-07-10", "--to", "2026-07-10", "--by", "supply")
    heads = [line.split()[0] for line in lines(found)[3:7]]
    assert heads == ["Supply", "North", "South", "The"]


def test_in_another_language_and_other_units(data: Path) -> None:
    spanish = call(data, PENGAN_LANGUAGE="es").output
    assert "julio de 2026" in spanish and "1,2 m³" in spanish
    assert "gal" in call(data, PENGAN_UNITS="us").output


def test_the_table_is_printed_or_written_as_the_page_gives_it(data: Path) -> None:
    printed = call(data, "--by", "supply", "--csv", "-")
    rows = list(csv.reader(io.StringIO(printed.stdout_bytes.decode(), newline="")))
    assert rows[0] == list(COLUMNS)
    assert [one[0] for one in rows[1:4]] == ["north", "south", ""]
    file = data / "used.csv"
    assert lines(call(data, "--by", "supply", "--csv", str(file))) == [f"What was used is in {file}."]
    assert file.read_bytes() == printed.stdout_bytes


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--month", "2026-07", "--to", "2026-07-10"), "not for both"),
        (("--month", "July"), "July is no month. Write it like 2026-07."),
        (("--from", "yesterday"), "yesterday"),
        (("--from", "2026-07-11", "--to", "2026-07-10"), "is no span of nights"),
        (("--csv", "{data}"), "exists already and was left as it is."),
        (("--csv", "{data}/nowhere/used.csv"), "cannot be written"),
        (("--by", "colour"), "colour"),
    ],
)
def test_what_is_asked_wrongly_is_told_in_one_line(data: Path, words: Sequence[str], told: str) -> None:
    found = call(data, *(word.format(data=data) for word in words))
    assert found.exit_code != 0
    assert told in found.output
    assert "Traceback" not in found.output


def test_a_site_that_is_not_there_and_a_database_that_is_none(data: Path) -> None:
    nowhere = CliRunner().invoke(main, ["used", "nowhere"], env={"PENGAN_DATA": str(data), "PENGAN_LANGUAGE": "en"})
    assert nowhere.exit_code == 1 and "nowhere" in nowhere.output
    broken = call(data, PENGAN_DATABASE="postgresql+psycopg://127.0.0.1:1/none")
    assert broken.exit_code == 1 and "The database cannot be used" in broken.output
