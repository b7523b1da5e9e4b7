"""The journal as the API answers it, and as a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from typing import Any

from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.document.fault import Fault
from pengan.engine.journal.fields import FIELDS
from pengan.engine.journal.reading import told
from pengan.words.names import Names
from pengan.words.reader import Reader
from pengan.words.say import say

from .aside import AsideLine
from .bringing import Brought
from .finding import Found, Page
from .taking import Answer
from .wording import names_around, shown_said, worded

Body = dict[str, Any]
COLUMNS = (*FIELDS, "by", "arrived_at")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def answers_shown(answers: Sequence[Answer], reader: Reader) -> Body:
    """What became of each entry."""
    return {
        "answers": [
            {"id": one.id, "outcome": one.outcome, "faults": [_fault(fault, reader) for fault in one.faults]}
            for one in answers
        ]
    }


def brought_shown(brought: Brought, reader: Reader) -> Body:
    """What became of a file."""
    lines = [{"line": one.line, "faults": [_fault(fault, reader) for fault in one.faults]} for one in brought.lines]
    counts = {name: getattr(brought, name) for name in ("taken", "known", "aside")}
    return {**counts, "lines": lines, "left_out": list(brought.left_out)}


def page_shown(page: Page, reader: Reader) -> Body:
    """A page of entries."""
    return {
        "entries": [entry_shown(one, reader, page.spoken) for one in page.entries],
        "names": dict(page.names),
        "next": page.next,
        "newest": page.newest,
    }


def entry_shown(one: Found, reader: Reader, names: Names) -> Body:
    """One entry; what the server says in it also in the reader's language."""
    about = {"number": one.number, "arrived_at": one.arrived_at, "by": one.entry.by}
    return {**about, **told(one.entry), **shown_said(one.entry, reader, names)}


def aside_shown(line: AsideLine, reader: Reader) -> Body:
    """Something that was kept aside."""
    return {
        "number": line.number,
        "by": line.by,
        "faults": [_fault(fault, reader) for fault in line.faults],
        "given": line.given,
        "times": line.times,
        "first_at": line.first_at,
        "last_at": line.last_at,
    }


def _fault(fault: Fault, reader: Reader) -> Body:
    return {"field": fault.field, **fault.message.as_json(), "detail": say(fault.message, reader)}


def table(parts: Iterator[list[Found]], document: Document, clock: SiteClock, reader: Reader) -> Iterator[str]:
    """Entries as CSV (RFC 4180), in base units, instants on the site's clock with their offset; part by part. What the
    server says is in the reader's language and units."""
    yield _lines([COLUMNS])
    for part in parts:
        names = names_around(document, clock, [one.entry.at for one in part if one.entry.said is not None])
        yield _lines([_cells(one, clock, worded(one.entry, reader, names)) for one in part])


def _cells(one: Found, clock: SiteClock, text: str) -> list[str]:
    values = told(one.entry) | {"by": one.entry.by, "text": text}
    cells = [_cell(values.get(name)) for name in COLUMNS]
    cells[COLUMNS.index("at")] = clock.iso(one.entry.at)
    cells[COLUMNS.index("arrived_at")] = clock.iso(one.arrived_at)
    return cells


def _cell(value: object) -> str:
    """A text that a spreadsheet would work out as a formula is kept a text by an apostrophe before it."""
    if isinstance(value, str):
        return f"'{value}" if value.startswith(_FORMULA) else value
    return "" if value is None else f"{value:.10g}" if isinstance(value, float) else str(value)


def _lines(rows: Sequence[Sequence[str]]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    return out.getvalue()
