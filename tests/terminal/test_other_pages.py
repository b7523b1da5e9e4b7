"""The ladder of a station, and the table of nights to come."""

from __future__ import annotations

from datetime import date, timedelta

from pengan.terminal.ahead_page import ahead_page
from pengan.terminal.ladder_page import ladder_page
from pengan.words import Reader, reading
from terminal.made_sheet import DOCUMENT, NOTICE, a_run, a_sheet, a_shortfall, a_view

READER = Reader("en-GB")
DAY = date(2026, 11, 25)
PALM_WALK = DOCUMENT.stations["s1"]


def test_the_ladder_lists_each_limit_and_the_last_decides() -> None:
    with reading(READER):
        lines = list(ladder_page(a_view(a_sheet(DAY), READER), PALM_WALK))
    assert lines[:5] == [
        "N14 Palm walk, night of Wednesday, 25 November 2026",
        "",
        "Opens 23:42, closes 23:54. Waits for Main North to fall below 240 L/min.",
        "  22:42  The program starts.",
        "  23:42  Waits for Main North to fall below 240 L/min. This decides.",
    ]


def test_cycles_are_counted_in_the_ladder() -> None:
    sheet = a_sheet(DAY)
    sheet = a_sheet(DAY, [a_run("s1", sheet.runs[0].start, 10, cycle=2, cycles=3)])
    with reading(READER):
        assert "(cycle 2 of 3)" in "\n".join(ladder_page(a_view(sheet, READER), PALM_WALK))


def test_a_station_that_is_not_due_is_told_so() -> None:
    with reading(READER):
        lines = list(ladder_page(a_view(a_sheet(DAY, []), READER), PALM_WALK))
    assert lines[1].startswith("Nothing is due here this night")


def test_a_shortfall_stands_in_the_ladder_of_its_station_only() -> None:
    view = a_view(a_sheet(DAY, shortfalls=(a_shortfall(),)), READER)
    with reading(READER):
        palm, rose = (list(ladder_page(view, DOCUMENT.stations[station])) for station in ("s1", "s2"))
    short = "E2 Rose bed: 4.5 m³ short. Main North has no water left."
    assert short in rose and short not in palm


def test_the_nights_ahead_are_one_line_each() -> None:
    short = a_sheet(DAY + timedelta(days=1), shortfalls=(a_shortfall(),), notices=(NOTICE(),))
    sheets = [a_sheet(DAY), short, a_sheet(DAY + timedelta(days=2), [], notices=(NOTICE(),))]
    with reading(READER):
        lines = list(ahead_page([a_view(sheet, READER) for sheet in sheets]))
    assert [line.split() for line in lines[1:5]] == [
        ["Night", "First", "water", "Finish", "Runs", "Water", "Short"],
        ["Wed", "25", "Nov", "23:42", "02:47", "2", "24.5", "m³", "—"],
        ["Thu", "26", "Nov", "23:42", "02:47", "2", "24.5", "m³", "4.5", "m³"],
        ["Fri", "27", "Nov", "—", "—", "0", "0", "L", "—"],
    ]
    assert [line for line in lines if "Made for a test." in line] == ["Thu 26 Nov: Made for a test."]
    assert "On 1 night not all water fits. pengan night shows what and why." in lines
