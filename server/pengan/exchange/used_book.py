"""What was used as a book: water, meters and faults on a sheet each, in the reader's language and units."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from pengan.words.quantities import figure_in
from pengan.words.reader import N_, Reader
from pengan.words.units import QUANTITIES, Unit, preferred_unit, unit_for

from .measures import heading

Shown = Mapping[str, Any]
Instant = Callable[[int], str]
"""Writes an instant on the site's clock."""

SHEETS = {"water": N_("Water"), "meters": N_("Meters"), "faults": N_("Faults")}
KEYS = {
    "month": N_("Month"),
    "supply": N_("Supply"),
    "program": N_("Program"),
    "hydrozone": N_("Hydrozone"),
}
NOTED = ("used.flows_learned",)
"""What is said of the figures themselves, and stands below them."""
WHOLE, NONE = N_("The whole site"), N_("None of them")
WHY = {
    "power": N_("Lost: no power"),
    "shut": N_("Lost: supply shut"),
    "stopped": N_("Lost: watering stopped"),
    "not_opened": N_("Lost: valve not opened"),
    "opened_late": N_("Lost: valve opened late"),
    "closed_early": N_("Lost: valve closed early"),
    "low_flow": N_("Lost: flow too low"),
}
_HEADING_FONT = Font(bold=True)
_HEADING_FILL = PatternFill("solid", fgColor="DCE8EE")


class Column(NamedTuple):
    """A column: its title, what a row has in it, and whether that is litres."""

    title: str
    value: Callable[[Shown], object]
    is_water: bool = True


def _field(name: str) -> Callable[[Shown], object]:
    return lambda row: row[name]


def _lost(why: str) -> Callable[[Shown], object]:
    return lambda row: next((one["volume_l"] for one in row["lost"] if one["why"] == why), 0.0)


WATER = (
    Column(N_("Planned"), _field("planned_l")),
    Column(N_("Delivered"), _field("delivered_l")),
    Column(N_("Assumed, as nothing was told"), _field("assumed_l")),
    Column(N_("Beyond the plan"), _field("beyond_l")),
    Column(N_("Lost"), _field("lost_l")),
    *(Column(title, _lost(why)) for why, title in WHY.items()),
    Column(N_("Came in all"), _field("came_l")),
    Column(N_("A year before"), _field("before_l")),
    Column(N_("Budget of the months"), _field("allowed_l")),
)


def used_book(shown: Shown, names: Callable[[str, str], str], instant: Instant, reader: Reader) -> bytes:
    """The answer of the API (`UsedSchema`) as an .xlsx file. `names` gives a record's name by kind and id."""
    book = Workbook()
    water = book.active
    assert isinstance(water, Worksheet)
    unit = _unit(shown, reader)
    head = Column(KEYS[shown["by"]], lambda row: _key(row, shown["by"], reader), False)
    total = {**shown["total"], "name": reader.gettext(WHOLE)}
    _fill(water, "water", (head, *WATER), [*shown["lines"], total], unit, reader)
    for place, said in enumerate((one for one in shown["said"] if one["code"] in NOTED), len(shown["lines"]) + 4):
        _write(water, place, 1, said["detail"], None)
    _fill(book.create_sheet(), "meters", _meter_columns(names, instant), shown["meters"], unit, reader)
    _fill(book.create_sheet(), "faults", _fault_columns(shown, instant), shown["faults"], unit, reader)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _unit(shown: Shown, reader: Reader) -> Unit:
    """One unit for the whole book: that in which the reader sees its largest amount."""
    most = max(abs(row[name]) for row in (*shown["lines"], shown["total"]) for name in ("planned_l", "came_l"))
    return unit_for(QUANTITIES["volume"], most, reader) if most else preferred_unit(QUANTITIES["volume"], reader)


def _key(row: Shown, by: str, reader: Reader) -> str:
    if row["name"] or by == "month":
        return str(row["name"] or row["key"])
    return str(row["key"] or reader.gettext(NONE))


def _meter_columns(names: Callable[[str, str], str], instant: Instant) -> tuple[Column, ...]:
    return (
        Column(N_("Supply"), lambda row: names("supply", row["supply"]), False),
        Column(N_("First reading"), lambda row: instant(row["starts"]), False),
        Column(N_("Last reading"), lambda row: instant(row["ends"]), False),
        Column(N_("Counted by the meter"), _field("counted_l")),
        Column(N_("Came to the stations below it"), _field("came_l")),
        Column(N_("Unaccounted for"), _field("unaccounted_l")),
        Column(N_("To look at"), lambda row: " ".join(one["detail"] for one in row["said"]), False),
    )


def _fault_columns(shown: Shown, instant: Instant) -> tuple[Column, ...]:
    return (
        Column(N_("Fault"), lambda row: row["said"]["detail"], False),
        Column(N_("Since"), lambda row: instant(row["since"]), False),
        Column(N_("Until"), lambda row: "" if row["until"] is None else instant(row["until"]), False),
        Column(N_("Escaped, about"), _field("escaped_l")),
        Column(N_("Kept from plants, about"), _field("kept_l")),
        Column(N_("Cost"), lambda row: None if row["cost"] is None else float(row["cost"]), False),
        Column(N_("Currency"), lambda _row: shown["currency"] or "", False),
    )


def _fill(
    sheet: Worksheet, name: str, columns: Sequence[Column], rows: Iterable[Shown], unit: Unit, reader: Reader
) -> None:
    sheet.title = reader.gettext(SHEETS[name])[:31]
    sheet.sheet_view.rightToLeft = reader.direction == "rtl"
    sheet.freeze_panes = "B2"
    for place, column in enumerate(columns, 1):
        title = heading(reader.gettext(column.title), unit if column.is_water else None, reader)
        cell = sheet.cell(1, place, title)
        cell.font, cell.fill, cell.alignment = _HEADING_FONT, _HEADING_FILL, Alignment(wrap_text=True, vertical="top")
        sheet.column_dimensions[get_column_letter(place)].width = max(12, min(32, len(title) + 3))
    for number, row in enumerate(rows, 2):
        for place, column in enumerate(columns, 1):
            _write(sheet, number, place, column.value(row), unit if column.is_water else None)


def _write(sheet: Worksheet, number: int, place: int, value: object, unit: Unit | None) -> None:
    """An amount unrounded, shown with the unit's places; not known is an empty cell."""
    if value is None:
        return
    cell = sheet.cell(number, place)
    if unit is not None and isinstance(value, int | float):
        cell.value = float(figure_in(unit, value))
        cell.number_format = "0." + "0" * unit.places if unit.places else "0"
        return
    cell.value = value
    if isinstance(value, str):
        cell.data_type = "s"  # text that begins with “=” is text, whatever it says
