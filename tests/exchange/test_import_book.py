"""A book becomes a document, or every fault at once with its place."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import pytest

from exchange.made_books import faults, imported, notices, records, sound
from pengan.engine.document.read import read_document
from pengan.exchange.report import KEPT


def test_a_sound_book_becomes_a_valid_document(tmp_path: Path) -> None:
    result = imported(tmp_path, sound())
    assert faults(result) == [] and notices(result) == []
    document = read_document(result.data)
    assert document.site.zone == "Europe/Lisbon"
    assert [turn.run_s for turn in document.turns.values()] == [1200, 750]
    assert document.stations["station-2"].flow_lpm == 25.5
    assert document.turns["turn-program-nightly-station-2"].program == "program-nightly"


def test_the_same_book_gives_the_same_document_twice(tmp_path: Path) -> None:
    assert imported(tmp_path, sound()).data == imported(tmp_path, sound()).data


def test_a_new_row_leaves_the_ids_of_the_others_alone(tmp_path: Path) -> None:
    before = {record["id"] for record in records(imported(tmp_path, sound()), "stations")}
    rows = sound()["Stations"]
    longer = [rows[0], [7, "New", "Main", None, 10], *rows[1:]]
    after = {record["id"] for record in records(imported(tmp_path, sound(Stations=longer)), "stations")}
    assert before < after


def test_names_of_other_scripts_give_ids_too(tmp_path: Path) -> None:
    supplies = [["Name", "Flow limit (L/min)"], ["البئر", 200], ["Основная", 100], ["Well", 5], ["Main", 90]]
    result = imported(tmp_path, sound(Supplies=supplies))
    ids = [record["id"] for record in records(result, "supplies")]
    assert faults(result) == [] and len(set(ids)) == 4 and all(name.isascii() for name in ids)


@pytest.mark.parametrize(
    ("heading", "cell", "base"),
    [
        ("Flow (L/min)", 40, 40),
        ("flow gpm", 10, 37.8541178),  # NIST Handbook 44 appendix C: 1 US gal = 3.785 411 784 L
        ("FLOW US GPM", "10", 37.8541178),
        ("Flow, imp gpm", 10, 45.4609),  # NIST Handbook 44 appendix C: 1 UK gal = 4.546 09 L
        ("Flow (L/s)", "0,5", 30),
        ("caudal m3/h", "1,2", 20),
        ("Caudal (m³/h)", 3, 50),
        ("Gasto l/min", 12, 12),
        ("Flow", "12 gpm", 45.4249414),
        ("Flow (L/s)", "40 L/min", 40),
        ("flow_lpm", 33, 33),
        ("Flow rate: gal/min", "1 000", 3785.41178),
    ],
)
def test_flows_are_read_in_the_unit_of_the_heading_or_the_cell(
    tmp_path: Path, heading: str, cell: Any, base: float
) -> None:
    stations = [["Number", "Name", "Supply", heading], [1, "A", "Main", cell], [2, "B", "Main", cell]]
    result = imported(tmp_path, sound(Stations=stations))
    codes = {code for code, _sheet, _at in faults(result)} - {"fault.over_supply"}
    assert not {code for code in codes if code.startswith("book.")}
    assert records(result, "stations")[0]["flow_lpm"] == pytest.approx(base, rel=1e-8)


@pytest.mark.parametrize(
    ("heading", "cell", "seconds"),
    [
        ("Run time (min)", 12, 720),
        ("Run time (min)", "12,5", 750),
        ("Minutes", 8, 480),
        ("run time s", 90, 90),
        ("Run time (h)", 0.25, 900),
        ("tiempo h:mm", "0:48", 2880),
        ("Run time h:mm", time(0, 48), 2880),
        ("Run time h:mm:ss", "1:02:03", 3723),
        ("Run time mm:ss", "12:30", 750),
        ("Run time mm:ss", time(12, 30), 750),
        ("Run time", timedelta(minutes=75), 4500),
        ("Run time (min)", time(0, 12), 720),
        ("Run time", "1 h 20", 4800),
        ("Run time (min)", "90 s", 90),
    ],
)
def test_run_times_are_read_in_every_way_people_write_them(
    tmp_path: Path, heading: str, cell: Any, seconds: int
) -> None:
    result = imported(tmp_path, sound(Turns=[["Program", "Station", heading], ["A", 1, cell]]))
    assert faults(result) == []
    assert records(result, "turns")[0]["run_s"] == seconds


@pytest.mark.parametrize("cell", ["12:30", time(12, 30)])
def test_a_time_that_could_be_hours_or_minutes_is_a_fault(tmp_path: Path, cell: Any) -> None:
    result = imported(tmp_path, sound(Turns=[["Program", "Station", "Run time (min)"], ["A", 1, cell]]))
    assert faults(result) == [("book.unclear_duration", "Turns", "C2")]


@pytest.mark.parametrize(
    ("cell", "clock"),
    [
        (time(22, 0), "22:00"), ("9:30 pm", "21:30"), ("12:00 a. m.", "00:00"), ("21h30", "21:30"), ("24:00", "24:00"),
        (timedelta(days=1), "24:00"), ("sunset", "sunset"), ("Sunset -00:30", "sunset-00:30"),
        ("30 min before sunset", "sunset-00:30"), ("puesta del sol + 1 h", "sunset+01:00"),
        ("45 min antes de la salida del sol", "sunrise-00:45"), (datetime(1900, 1, 1), "24:00"),
    ],
)  # fmt: skip
def test_starts_are_clock_times_or_stand_by_the_sun(tmp_path: Path, cell: Any, clock: str) -> None:
    site = [["Name", "Zone", "Latitude", "Longitude"], ["Test", "Europe/Lisbon", 37.1, -8.3]]
    result = imported(tmp_path, sound(Site=site, Programs=[["Name", "Letter", "Start"], ["Nightly", "A", cell]]))
    assert faults(result) == []
    assert records(result, "programs")[0]["start"] == clock


@pytest.mark.parametrize("cell", ["25:00", "9:75", "evening", 22, "13 pm", "sunset-noon"])
def test_what_is_no_clock_time_is_a_fault(tmp_path: Path, cell: Any) -> None:
    result = imported(tmp_path, sound(Programs=[["Name", "Letter", "Start"], ["Nightly", "A", cell]]))
    assert faults(result) == [("book.not_a_clock", "Programs", "C2")]


@pytest.mark.parametrize(
    ("language", "cell", "day"),
    [
        ("en", date(2026, 11, 25), "2026-11-25"), ("en", "2026-11-25", "2026-11-25"),
        ("en", "25/11/2026", "2026-11-25"),
        ("en", "11/25/2026", "2026-11-25"), ("en", "Nov 25, 2026", "2026-11-25"), ("es", "3/4/2026", "2026-04-03"),
        ("es", "3 de abril de 2026", "2026-04-03"), ("es", "03.04.26", "2026-04-03"), ("en", "4/4/2026", "2026-04-04"),
        ("en-US", "3/4/2026", "2026-03-04"), ("en-GB", "3/4/2026", "2026-04-03"),
    ],
)  # fmt: skip
def test_dates_are_read_in_the_order_of_the_language(tmp_path: Path, language: str, cell: Any, day: str) -> None:
    programs = [["Name", "Letter", "Every n days", "Counted from"], ["Nightly", "A", 3, cell]]
    result = imported(tmp_path, sound(Programs=programs), language)
    assert faults(result) == []
    assert records(result, "programs")[0] | {"days": "every_n", "every_from": day} == records(result, "programs")[0]


@pytest.mark.parametrize(
    ("cell", "code"), [("3/4/2026", "unclear_date"), ("30/2/2026", "not_a_date"), (7, "not_a_date")]
)
def test_a_date_that_is_unclear_or_none_is_a_fault(tmp_path: Path, cell: Any, code: str) -> None:
    programs = [["Name", "Letter", "Every n days", "Counted from"], ["Nightly", "A", 3, cell]]
    assert (f"book.{code}", "Programs", "D2") in faults(imported(tmp_path, sound(Programs=programs), "en"))


@pytest.mark.parametrize(
    ("language", "cell", "days"),
    [
        ("en", "Mon, Wed", "mon,wed"), ("es", "lun mié", "mon,wed"), ("en", "MWF", "mon,wed,fri"),
        ("es", "LXV", "mon,wed,fri"), ("en", "Mon-Fri", "mon,tue,wed,thu,fri"), ("en", "Sat–Mon", "mon,sat,sun"),
        ("en", "tues & thurs", "tue,thu"), ("en", "lunes y viernes", "mon,fri"), ("es", "sábado", "sat"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("heading", ["Weekdays", "Days"])
def test_weekdays_are_read_from_words_and_letters(
    tmp_path: Path, language: str, cell: str, days: str, heading: str
) -> None:
    result = imported(tmp_path, sound(Programs=[["Name", "Letter", heading], ["N", "A", cell]], Turns=None), language)
    assert faults(result) == []
    program = records(result, "programs")[0]
    assert (program["days"], program["weekdays"]) == ("weekdays", days)


@pytest.mark.parametrize(
    ("cell", "code"), [("TTS", "unclear_weekday"), ("often", "not_weekdays"), ("S", "unclear_weekday")]
)
def test_letters_that_could_be_two_days_are_a_fault(tmp_path: Path, cell: str, code: str) -> None:
    programs = [["Name", "Letter", "Weekdays"], ["Nightly", "A", cell]]
    assert (f"book.{code}", "Programs", "C2") in faults(imported(tmp_path, sound(Programs=programs), "en"))


def test_every_n_days_can_be_written_as_a_day_rule(tmp_path: Path) -> None:
    programs = [["Nombre", "Letra", "Días", "Contados desde"], ["Nightly", "A", "cada 3 días", date(2026, 1, 1)]]
    result = imported(tmp_path, sound(Programs=programs))
    assert faults(result) == []
    assert records(result, "programs")[0]["every_n_days"] == 3


def test_a_percentage_cell_counts_as_per_cent(tmp_path: Path) -> None:
    programs = [["Name", "Letter", "Seasonal percentage"], ["Nightly", "A", "80 %"], ["Other", "B", 110]]
    assert [p["seasonal_pct"] for p in records(imported(tmp_path, sound(Programs=programs)), "programs")] == [80, 110]


def test_every_fault_is_told_at_once_with_its_cell(tmp_path: Path) -> None:
    stations = [
        ["Number", "Name", "Supply", "Flow (L/min)", "Heads"],
        [1, "Lawn", "Maine", "=2*20", "rotor"],
        [1, "Beds", "Main", "lots", "watering can"],
        [3, None, "Main", 10, None],
    ]
    turns = [["Program", "Station", "Run time (min)"], ["Z", 1, -5], ["A", 3, 0]]
    assert set(faults(imported(tmp_path, sound(Stations=stations, Turns=turns)))) >= {
        ("book.formula", "Stations", "D2"),
        ("book.unknown_reference", "Stations", "C2"),
        ("book.not_a_number", "Stations", "D3"),
        ("book.unknown_choice", "Stations", "E3"),
        ("fault.missing", "Stations", "B4"),
        ("fault.number_twice", "Stations", "A3"),
        ("book.unknown_reference", "Turns", "A2"),
        ("book.unclear_reference", "Turns", "B2"),
        ("fault.outside_s", "Turns", "C2"),
        ("fault.outside_s", "Turns", "C3"),
    }


def test_a_column_without_a_unit_is_told_once(tmp_path: Path) -> None:
    stations = [["Number", "Name", "Supply", "Flow"], [1, "A", "Main", 40], [2, "B", "Main", 30]]
    assert faults(imported(tmp_path, sound(Stations=stations))) == [("book.no_unit", "Stations", "D")]


def test_a_unit_of_another_quantity_is_a_fault(tmp_path: Path) -> None:
    stations = [["Number", "Name", "Supply", "Flow (psi)"], [1, "A", "Main", 40], [2, "B", "Main", 30]]
    assert faults(imported(tmp_path, sound(Stations=stations))) == [("book.wrong_unit", "Stations", "D")]


def test_two_columns_for_one_field_are_a_fault(tmp_path: Path) -> None:
    stations = [
        ["Number", "Name", "Supply", "Flow (L/min)", "caudal gpm"],
        [1, "A", "Main", 4, 1],
        [2, "B", "Main", 3, 1],
    ]
    assert faults(imported(tmp_path, sound(Stations=stations))) == [("book.two_columns", "Stations", "E1")]


def test_a_required_column_that_is_not_there_is_told_once(tmp_path: Path) -> None:
    stations = [["Number", "Name", "Flow (L/min)"], [1, "A", 40], [2, "B", 30]]
    assert faults(imported(tmp_path, sound(Stations=stations))) == [("book.missing_column", "Stations", "")]


def test_what_is_not_recognised_is_named_and_not_dropped_in_silence(tmp_path: Path) -> None:
    stations = [
        ["Number", "Name", "Supply", "Flow (L/min)", "Paint"],
        [1, "A", "Main", 4, "red"],
        [2, "B", "Main", 3, ""],
    ]
    result = imported(tmp_path, sound(Stations=stations, Holidays=[["Who", "When"], ["Ana", "May"]]))
    assert faults(result) == []
    assert notices(result) == [("book.unknown_sheet", "Holidays", ""), ("book.unknown_column", "Stations", "E")]


def test_headings_may_stand_below_a_title_and_rows_may_be_blank(tmp_path: Path) -> None:
    rows = sound()["Stations"]
    spread = [["Our stations, spring"], [], [None, *rows[0]], [], [None, *rows[1]], [None, None], [None, *rows[2]]]
    result = imported(tmp_path, sound(Stations=spread))
    assert faults(result) == []
    assert [record["number"] for record in records(result, "stations")] == ["1", "2"]


def test_run_times_can_stand_on_the_stations_sheet_a_column_a_program(tmp_path: Path) -> None:
    stations = [
        ["Number", "Name", "Supply", "Flow (L/min)", "Program A (min)", "Nightly extra min"],
        [1, "Lawn", "Main", 40, 20, 5],
        [2, "Beds", "Main", 25, 0, None],
    ]
    programs = [["Name", "Letter"], ["Nightly", "A"], ["Nightly extra", "B"]]
    result = imported(tmp_path, sound(Stations=stations, Programs=programs, Turns=None))
    assert faults(result) == [] and notices(result) == []
    turns = [(turn["program"], turn["station"], turn["run_s"]) for turn in records(result, "turns")]
    assert turns == [("program-nightly", "station-1", 1200), ("program-nightly-extra", "station-1", 300)]


def test_a_station_number_that_became_a_date_is_a_fault(tmp_path: Path) -> None:
    stations = [["Number", "Name", "Supply", "Flow (L/min)"], [date(2026, 2, 3), "A", "Main", 40]]
    result = imported(tmp_path, sound(Stations=stations, Turns=None))
    assert faults(result) == [("book.date_in_text", "Stations", "A2")]


def test_a_closure_that_ends_on_a_date_includes_that_day(tmp_path: Path) -> None:
    closures = [
        ["Name", "Starts on", "Ends on"],
        ["Works", "2026-05-01", "2026-05-03"],
        ["Match", "2026-06-01 14:00", datetime(2026, 6, 1, 18)],
    ]
    result = imported(tmp_path, sound(Closures=closures))
    assert faults(result) == []
    spans = [(closure["starts_on"], closure["ends_on"]) for closure in records(result, "closures")]
    assert spans == [("2026-05-01T00:00", "2026-05-04T00:00"), ("2026-06-01T14:00", "2026-06-01T18:00")]
    assert ("book.day_included", "Closures", "C2") in notices(result)


def test_grouped_thousands_are_read_by_the_language_and_told(tmp_path: Path) -> None:
    for language, typed in (("es", "1.500"), ("en", "1,500")):
        stations = [["Number", "Name", "Supply", "Flow (L/min)", "Area (m2)"], [1, "A", "Main", 40, typed]]
        result = imported(tmp_path, sound(Stations=stations, Turns=None), language)
        assert records(result, "stations")[0]["area_m2"] == 1500
        assert ("book.thousands", "Stations", "E2") in notices(result)


def test_a_spanish_book_is_told_by_its_headings(tmp_path: Path) -> None:
    book = {
        "Sitio": [["Nombre", "Zona horaria"], ["Huerta", "Europe/Madrid"]],
        "Suministros": [["Nombre", "Caudal límite (m3/h)"], ["Pozo", "12,5"]],
        "Estaciones": [["NÚMERO", " nombre ", "suministro", "Caudal l/min"], ["1", "Césped", "pozo", "1.250,5"]],
    }
    result = imported(tmp_path, book)
    assert result.language == "es"
    assert records(result, "supplies")[0]["limit_lpm"] == pytest.approx(12.5 * 1000 / 60, rel=1e-8)
    assert records(result, "stations")[0]["flow_lpm"] == 1250.5


def test_only_the_first_faults_are_kept_and_the_rest_counted(tmp_path: Path) -> None:
    stations = [["Number", "Name", "Supply", "Flow (L/min)"], *([n, "A", "Main", "x"] for n in range(KEPT + 50))]
    result = imported(tmp_path, sound(Stations=stations))
    assert len(result.report.faults.kept) == KEPT
    assert result.report.faults.left_out == 50


def test_the_rows_own_ids_are_kept_and_twice_the_same_is_a_fault(tmp_path: Path) -> None:
    supplies = [["Name", "Flow limit (L/min)", "Id"], ["Well", 200, "w1"], ["Main", 120, "w1"]]
    result = imported(tmp_path, sound(Supplies=supplies))
    assert ("book.twice", "Supplies", "C3") in faults(result)
    assert records(result, "supplies")[0]["id"] == "w1"


def test_merged_program_cells_count_for_each_of_their_rows(tmp_path: Path) -> None:
    from openpyxl import load_workbook

    from exchange.made_books import xlsx
    from pengan.exchange.import_book import import_book

    path = xlsx(tmp_path / "b.xlsx", sound(Turns=[["Program", "Station", "Minutes"], ["A", 1, 5], [None, 2, 6]]))
    book = load_workbook(path)
    book["Turns"].merge_cells("A2:A3")
    book.save(path)
    result = import_book(path)
    assert faults(result) == []
    assert [turn["run_s"] for turn in records(result, "turns")] == [300, 360]
    assert ("book.merged", "Turns", "2") in notices(result)


def test_a_hidden_sheet_is_not_read_but_named(tmp_path: Path) -> None:
    from openpyxl import load_workbook

    from exchange.made_books import xlsx
    from pengan.exchange.import_book import import_book

    path = xlsx(tmp_path / "b.xlsx", sound())
    book = load_workbook(path)
    book["Turns"].sheet_state = "hidden"
    book.save(path)
    result = import_book(path)
    assert ("book.hidden_sheet", "Turns", "") in notices(result) and records(result, "turns") == []


def test_the_site_may_stand_upright_with_names_beside_values(tmp_path: Path) -> None:
    named = [["Name", "Test garden"], ["Time zone", "Europe/Lisbon"], ["Latitude", "37,1"], ["Longitude", -8.3]]
    site = [["Our garden"], [], *named]
    result = imported(tmp_path, sound(Site=site))
    assert faults(result) == []
    assert [code for code, _sheet, _at in notices(result)] == ["book.unknown_column"]
    assert read_document(result.data).site.latitude_deg == 37.1


def test_faults_of_an_upright_site_name_the_cell_that_people_see(tmp_path: Path) -> None:
    site = [["Name", "Test garden"], ["Time zone", "Europe/Lisbon"], ["Latitude", "north"], ["Paint", "red"]]
    result = imported(tmp_path, sound(Site=site))
    assert ("book.not_a_number", "Site", "B3") in faults(result)
    assert ("book.unknown_column", "Site", "B4") in notices(result)
