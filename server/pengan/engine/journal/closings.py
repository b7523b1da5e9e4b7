"""An end for every opening of a night that is over: none goes on, whatever was not told of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from ..document.document import Document
from ..message import Message, saying
from ..plan.sheet import NightSheet, Run
from .entry import Entry, Kind
from .expected import overdue_from
from .in_order import in_order
from .openings import openings

NEVER_CLOSED = saying(
    "used.never_closed",
    "{station} was opened at {start_at}, belongs to no run, and nothing told of its closing: it is not counted.",
)
CLOSED_BY_SHEET = saying(
    "used.closed_by_sheet",
    "Nothing told of {station} being closed after it opened at {start_at}; taken as {end_at}, as planned.",
)


def with_closings(document: Document, sheet: NightSheet, told: Sequence[Entry]) -> tuple[list[Entry], list[Message]]:
    """The entries with an end for every opening: a night that is over has none that goes on.

    Where its run's end is planned, it closed then; an opening of no run that nobody saw closing counts for nothing.
    """
    runs: dict[str, list[Run]] = defaultdict(list)
    for run in sheet.runs:
        runs[run.station].append(run)
    added, taken, said = list[Entry](), set[tuple[str, int]](), list[Message]()
    for one in openings(document, told, sheet):
        if one.end is not None:
            continue
        due = overdue_from(one, runs[one.station])
        if due is None:
            taken.add((one.station, one.start))
            said.append(NEVER_CLOSED(station=one.station, start_at=one.start))
        else:
            closing = f"closing-{one.station}-{one.start}"
            added.append(Entry(closing, due, Kind.CLOSED, "server", station=one.station))
            said.append(CLOSED_BY_SHEET(station=one.station, start_at=one.start, end_at=due))
    kept = [one for one in told if one.kind is not Kind.OPENED or (one.station or "", one.at) not in taken]
    return in_order([*kept, *added]), said
