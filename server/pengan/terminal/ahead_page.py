"""The nights to come as a table, one line a night, like a table of tides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pengan.engine.plan.sheet import NightSheet
from pengan.words import Reader, _, isolate, ngettext, say, write, write_date, write_figure
from pengan.words.names import SiteNames

from .columns import in_columns
from .night_page import View, caution

_FIGURES = frozenset({1, 2, 3, 4, 5})


def ahead_page(views: Sequence[View]) -> Iterator[str]:
    """When water starts and ends each night, how much, what is short; then what is special about a night."""
    reader = views[0].reader
    yield isolate(views[0].document.site.name, reader)
    yield from in_columns([_headings(), *(_row(view) for view in views)], _FIGURES)
    yield from _notices(views)
    short = sum(1 for view in views if view.sheet.shortfalls)
    yield ""
    if short:
        yield ngettext(
            "On {count} night not all water fits. pengan night shows what and why.",
            "On {count} nights not all water fits. pengan night shows what and why.",
            short,
        )
    yield caution()


def _headings() -> tuple[str, ...]:
    return _("Night"), _("First water"), _("Finish"), _("Runs"), _("Water"), _("Short")


def _row(view: View) -> tuple[str, ...]:
    sheet, reader = view.sheet, view.reader
    first = min((run.start for run in sheet.runs), default=None)
    return (
        write_date(sheet.night, reader, "weekday"),
        "—" if first is None else view.time(first),
        "—" if sheet.finish is None else view.time(sheet.finish),
        write_figure(len(sheet.runs), 0, reader),
        write("volume", sheet.volume_l, reader),
        _short(sheet, reader),
    )


def _short(sheet: NightSheet, reader: Reader) -> str:
    missing = sum(short.volume_l for short in sheet.shortfalls)
    return write("volume", missing, reader) if sheet.shortfalls else "—"


def _notices(views: Sequence[View]) -> Iterator[str]:
    """Notices of single nights; what holds for every night is said once, with the first."""
    said: set[str] = set()
    for view in views:
        names = SiteNames(view.document, view.wall)
        for text in (say(notice, view.reader, names) for notice in view.sheet.notices):
            if text not in said:
                said.add(text)
                night = write_date(view.sheet.night, view.reader, "weekday")
                yield _("{date}: {notice}", date=night, notice=text)
