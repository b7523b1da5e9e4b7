"""What the template tells people about each column, put together from what the document allows there."""

from __future__ import annotations

from pengan.engine.document.fields import Kind
from pengan.words.figures import write_figure
from pengan.words.quantities import figure_in
from pengan.words.reader import N_, Reader

from .measures import base_unit, column_unit
from .naming import title, titles
from .typed.weekdays import short_names
from .vocabulary import SHEETS, choice_names

_REQUIRED = N_("This must be filled in.")
_BETWEEN = N_("Between {least} and {most}.")
_CHOICES = N_("One of: {names}.")
_REFERENCE = N_("The number or name of a row on the sheet “{sheet}”.")
_UNIT = N_("Figures are in the unit of the heading. Change the unit there, or write another one in the cell.")
_BY_KIND = {
    "clock": N_("A time of day, or sunrise or sunset, also with a time before or after: {examples}."),
    "date": N_("A date, or text such as {examples}."),
    "month_day": N_("A day of every year, as month and day: {examples}."),
    "moment": N_("A date with a time: {examples}."),
    "id": N_("Pengan's own mark for this row. Leave it as it is; leave it empty in new rows."),
}
_BY_FIELD = {
    "weekdays": N_("Days of the week: {examples}."),
    "dates": N_("Dates with “;” between: {examples}."),
    "zone": N_("The name of the time zone in the IANA time zone database: {examples}."),
    "days": N_("You can also write weekdays here, or “every 3 days”."),
    "position": N_("The place in the program's order. Without this column the order of the rows counts."),
    "fed_by": N_("Empty for a source; a main names the supply that feeds it."),
}
_EXAMPLES = {
    "clock": "21:30, sunset-00:30",
    "date": "2026-11-25",
    "month_day": "11-25",
    "moment": "2026-11-25 21:30",
    "dates": "2026-11-25; 2026-12-01",
    "zone": "Europe/Lisbon",
}


def note(field: str, kind: Kind, reader: Reader) -> str:
    """The note of a column's heading, a sentence a line; empty where there is nothing to say."""
    lines = [
        reader.gettext(_REQUIRED) if kind.required and kind.name != "id" else "",
        _by_name(_BY_FIELD, field, reader),
        _by_name(_BY_KIND, kind.name, reader),
        _choices(field, kind, reader),
        reader.gettext(_REFERENCE, sheet=title(SHEETS[kind.table], reader)) if kind.table else "",
        *_figures(field, kind, reader),
    ]
    return "\n".join(line for line in lines if line)


def _by_name(templates: dict[str, str], name: str, reader: Reader) -> str:
    if name not in templates:
        return ""
    days = short_names(reader)
    examples = f"{days[0]}, {days[2]}" if name == "weekdays" else _EXAMPLES.get(name, "")
    return reader.gettext(templates[name], examples=examples)


def _choices(field: str, kind: Kind, reader: Reader) -> str:
    if not kind.choices:
        return ""
    return reader.gettext(_CHOICES, names=titles((choice_names(field, choice) for choice in kind.choices), reader))


def _figures(field: str, kind: Kind, reader: Reader) -> list[str]:
    """Between which figures, in the column's unit, and that the unit can be changed."""
    if kind.name not in ("whole", "number") or kind.least is None or kind.most is None:
        return []
    unit = column_unit(kind, field, reader)
    least, most = (
        write_figure(figure_in(unit, bound) if unit else bound, unit.places if unit else 0, reader)
        for bound in (kind.least, kind.most)
    )
    told = [reader.gettext(_BETWEEN, least=least, most=most)]
    return [*told, reader.gettext(_UNIT)] if unit and base_unit(kind) and kind.unit not in ("pct", "deg") else told
