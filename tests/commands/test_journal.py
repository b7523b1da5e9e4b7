"""`pengan journal`: a CSV file into a site's journal, and what the server gives out as a table, in again."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from pengan.cli import main
from pengan.web.database import Database
from pengan.web.journal.finding import Asked, _in_time
from pengan.web.journal.storing import entries_in
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from web.journal.conftest import a_park
from web.people.crew import SITE


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with the park in it."""
    database = Database(Settings(data=tmp_path).database_url)
    database.upgrade()
    with database.session() as session:
        put_document(session, a_park())
    database.engine.dispose()
    return tmp_path


def call(data: Path, text: str, *words: str) -> Result:
    file = data / "meter.csv"
    file.write_text(text, encoding="utf-8")
    return CliRunner().invoke(main, ["journal", str(file), "--site", SITE, *words], env={"PENGAN_DATA": str(data)})


def counts(data: Path) -> list[float | None]:
    database = Database(Settings(data=data).database_url)
    with database.session() as session, session.begin():
        found = entries_in(session.execute(_in_time(SITE, Asked(), None, oldest_first=True)))
    database.engine.dispose()
    return [entry.count_l for entry in found]


def test_a_meters_readings_are_taken_once(data: Path) -> None:
    text = "Time,Reading\n" + "".join(f"2026-07-{day:02} 08:00,{day}\n" for day in range(1, 11))
    words = ("--column", "at=Time", "--column", "count_l=Reading", "--unit", "count_l=m3",
             "--always", "kind=count", "--always", "supply=town")  # fmt: skip
    first = call(data, text, *words)
    assert (first.exit_code, first.output) == (0, "New entries: 10. Known already: 0. Kept aside: 0.\n")
    again = call(data, text, *words)
    assert (again.exit_code, again.output) == (0, "New entries: 0. Known already: 10. Kept aside: 0.\n")
    assert counts(data) == [day * 1000 for day in range(1, 11)]


def test_faulty_lines_are_named_and_the_others_taken(data: Path) -> None:
    text = "at,kind,supply,count_l,Colour\n2026-07-01 08:00,count,town,5,red\n2026-07-02 08:00,count,sea,x,red\n"
    found = call(data, text)
    assert found.exit_code == 1
    assert "Columns that are not read: Colour" in found.output
    assert "Line 3: supply: The site has no supply “sea”.; count_l:" in found.output.replace('"sea"', "“sea”")
    assert "New entries: 1. Known already: 0. Kept aside: 1." in found.output
    assert counts(data) == [5]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--always", "colour=red"), "should be like FIELD="),
        (("--column", "at"), "should be like FIELD="),
        (("--unit", "count_l=bathtubs"), "count_l=m3"),
        (("--site", "nowhere"), "no site"),
    ],
)
def test_what_is_asked_wrongly_is_told_in_one_line(data: Path, words: tuple[str, ...], told: str) -> None:
    found = call(data, "at\n1\n", *words)
    assert found.exit_code == 1 and told in found.output
