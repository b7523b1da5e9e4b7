"""`pengan clock FILE`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builders import a_document_data, a_program, a_site
from pengan.cli import main
from pengan.engine.clock.vtimezone import read_vtimezone
from pengan.engine.clock.zones import zone_clock

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "fixtures" / "demo" / "site.json"
CALENDAR = ROOT / "fixtures" / "clock" / "new_york_rfc5545.ics"
NOW = ("--now", "2026-11-25T12:00")


def clock(*words: str | Path) -> Result:
    environment = {"PENGAN_LANGUAGE": "en", "PENGAN_HOURS": "24"}
    return CliRunner().invoke(main, ["clock", *map(str, words)], env=environment)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "site.json"


def test_the_coming_changes_are_listed_with_what_they_do_to_the_nights(file: Path) -> None:
    data = a_document_data(site=a_site(zone="Europe/Lisbon"), programs=[a_program(start="01:15")])
    file.write_text(json.dumps(data), encoding="utf-8")
    result = clock(file, "--years", "1", *NOW)
    assert result.exit_code == 0, result.output
    spring, autumn = result.output.split("\n\n")[1:]
    assert "Times from 01:00 up to 02:00 do not come." in spring
    assert "lasts 23 h" in spring and "lasts 25 h" in autumn
    assert "starts at 02:15 instead" in spring
    assert "Times from 01:00 up to 02:00 come twice." in autumn
    assert "starts once, the first time" in autumn


def test_a_clock_that_never_changes_says_so(file: Path) -> None:
    file.write_text(json.dumps(a_document_data(site=a_site(zone_rule="<+0530>-5:30"))), encoding="utf-8")
    result = clock(file, "--years", "3", *NOW)
    assert "The clock does not change in the next 3 years." in result.output
    assert "a clock of its own, <+0530>-5:30" in result.output


def test_the_sun_of_the_day_is_told_with_its_method(file: Path) -> None:
    lines = clock(DEMO, "--now", "2026-06-21T12:00").output.splitlines()
    assert lines[2].startswith("Today the sun rises at 06:1") and "NOAA" in lines[2]
    site = a_site(zone="Europe/Oslo", latitude_deg=69.65, longitude_deg=18.96)
    file.write_text(json.dumps(a_document_data(site=site)), encoding="utf-8")
    assert "The sun does not both rise and set there today." in clock(file, *NOW, "--now", "2026-06-21T12:00").output


def test_the_clock_can_be_printed_as_a_posix_string() -> None:
    assert clock(DEMO, "--posix", *NOW).output == "WET0WEST,M3.5.0/1,M10.5.0\n"


def test_dated_changes_are_no_posix_string_and_the_error_names_the_way_out(file: Path) -> None:
    site = a_site(zone_changes="+01:00, 2027-02-08T02:00Z +00:00, 2027-03-14T02:00Z +01:00")
    file.write_text(json.dumps(a_document_data(site=site)), encoding="utf-8")
    result = clock(file, "--posix", *NOW)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "--vtimezone" in result.stderr


def test_the_clock_can_be_printed_as_a_vtimezone() -> None:
    result = clock(DEMO, "--vtimezone", *NOW)
    lisbon = zone_clock("Europe/Lisbon")
    start, end = 1_795_600_000, 2_400_000_000
    assert read_vtimezone(result.output).changes(start, end) == lisbon.changes(start, end)


def test_a_calendar_files_clock_is_printed_as_the_field_the_site_needs() -> None:
    assert clock(DEMO, "--calendar", CALENDAR, *NOW).output == "zone_rule: EST5EDT,M3.2.0,M11.1.0\n"


def test_a_calendar_file_without_a_clock_is_one_clear_line() -> None:
    result = clock(DEMO, "--calendar", DEMO, *NOW)
    assert result.exit_code == 1
    assert "VTIMEZONE" in result.stderr and len(result.stderr.splitlines()) == 1


@pytest.mark.parametrize("now", ["2399-06-01T12:00", "9999-12-31T23:30", "0001-01-01T00:10"])
def test_a_moment_beyond_all_nights_is_one_clear_line(now: str) -> None:
    result = clock(DEMO, "--now", now, "--years", "5")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "2399" in result.stderr and len(result.stderr.splitlines()) == 1


def test_a_change_of_tonight_is_still_listed_in_the_morning() -> None:
    assert "March 29, 2026" in clock(DEMO, "--now", "2026-03-29T07:00", "--years", "1").output
