"""The night as the command line prints it."""

from __future__ import annotations

from datetime import date

import pytest

from pengan.engine.plan.sheet import NightSheet
from pengan.terminal.night_page import night_page
from pengan.words import Reader, reading
from terminal.made_sheet import NOTICE, a_bound, a_run, a_sheet, a_shortfall, a_view

BRITISH = Reader("en-GB")
PLAIN, BACK = date(2026, 11, 25), date(2026, 10, 24)


def page(sheet: NightSheet, now: int | None = None, reader: Reader = BRITISH) -> list[str]:
    """The lines of a page."""
    with reading(reader):
        return list(night_page(a_view(sheet, reader, now)))


def test_next_water_comes_first() -> None:
    lines = page(a_sheet(PLAIN))
    assert lines[:4] == [
        "Test site: night of Wednesday, 25 November 2026",
        "Local time of Europe/Lisbon, UTC+00:00.",
        "",
        "Next water 23:42, N14 Palm walk, North.",
    ]


def test_next_water_tomorrow_says_the_day() -> None:
    sheet = a_sheet(PLAIN)
    assert "Next water Thu 26 Nov 01:17, E2 Rose bed." in page(sheet, sheet.runs[0].end)


def test_water_that_runs_now_is_named() -> None:
    sheet = a_sheet(PLAIN)
    assert "Water now: N14 Palm walk, until 23:54." in page(sheet, sheet.runs[0].start)


def test_many_open_stations_are_counted() -> None:
    start = a_sheet(PLAIN).runs[0].start
    sheet = a_sheet(PLAIN, [a_run("s1", start, minutes) for minutes in (5, 6, 7, 8)])
    assert "Water now at 4 stations; the last closes 23:50." in page(sheet, start)


def test_after_the_last_start_there_is_no_more_water() -> None:
    sheet = a_sheet(PLAIN)
    assert "No more water this night." in page(sheet, sheet.ends - 1)
    assert "No water this night." in page(a_sheet(PLAIN, []))


def test_runs_are_listed_place_by_place() -> None:
    lines = page(a_sheet(PLAIN))
    at = lines.index("North")
    assert lines[at + 1].split() == ["Opens", "Closes", "Station", "Run", "time", "Flow", "Water", "Program", "Cycle"]
    assert lines[at + 2].split("  ")[1:4] == ["23:42", " 23:54", "N14 Palm walk"]
    assert "Places without a name" in lines[at + 3 :]


def test_what_did_not_fit_says_how_much_and_why() -> None:
    lines = page(a_sheet(PLAIN, shortfalls=(a_shortfall(),), volume_due_l=29_000))
    assert "  E2 Rose bed: 4.5 m³ short. Main North has no water left." in lines
    assert "24.5 m³ in 2 runs, of 29 m³ due." in lines


def test_the_end_and_what_holds_it_are_told() -> None:
    sheet = a_sheet(PLAIN)
    assert sheet.finish is not None
    assert "The night finishes 02:47." in page(sheet)
    early = page(a_sheet(PLAIN, bound=a_bound(sheet.finish - 600)))
    assert "It could not finish before 02:37. Main North decides: its flow limit." in early
    exact = page(a_sheet(PLAIN, bound=a_bound(sheet.finish)))
    assert "It cannot finish sooner. Main North decides: its flow limit." in exact


def test_where_the_clock_changes_times_carry_their_offset_and_mark() -> None:
    first = a_sheet(BACK)
    lines = page(first)
    assert "Where an hour comes twice, ¹ is the first and ² the second." in lines
    assert any("01:17¹ +01:00" in line and "01:47² +00:00" in line for line in lines)


def test_notices_and_the_caution_are_always_shown() -> None:
    lines = page(a_sheet(PLAIN, notices=(NOTICE(),)))
    assert "  Made for a test." in lines
    assert lines[-1].startswith("Caution: this is the plan, not the valve.")


@pytest.mark.parametrize(
    ("reader", "expected"),
    [
        (Reader("en-US", "us"), ["11:42 PM", "63.4 gpm", "761 gal"]),
        (Reader("en-GB", "imperial", hour_cycle="12"), ["11:42 pm", "52.8 imp gpm", "634 imp gal"]),
        (Reader("es"), ["23:42", "240 L/min", "2,9 m³"]),
    ],
)
def test_units_and_clock_are_the_readers(reader: Reader, expected: list[str]) -> None:
    text = " ".join(" ".join(page(a_sheet(PLAIN), reader=reader)).split())
    assert [piece for piece in expected if piece not in text] == []


def test_how_much_moved_is_told_after_an_edit() -> None:
    assert "12.5 % of the runs moved by more than ten minutes." in page(a_sheet(PLAIN, moved_pct=12.5))


def test_right_to_left_every_name_and_figure_is_isolated() -> None:
    lines = page(a_sheet(PLAIN), reader=Reader("ar-XB"))
    text = "\n".join(lines)
    assert "\u2068N14 Palm walk\u2069" in text
    assert "N14 Palm walk" not in text.replace("\u2068N14 Palm walk\u2069", "")
