"""What still holds when a night begins: outages that have not ended, and valves that are open across noon."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ..plan.sheet import NightSheet
from .entry import Entry, Kind
from .in_order import in_order

OUTAGES_S = 7 * 86_400
"""An outage that began longer ago is not looked for. Common practice, no source."""
ACROSS_S = 2 * 3600
"""A valve's word, or a run, so long before noon may concern the night after it. Common practice, no source."""
_BEGIN = {Kind.POWER_LOST: "power", Kind.SHUT: "shut", Kind.STOPPED: "stopped"}
_END = {Kind.POWER_BACK: "power", Kind.FREED: "shut", Kind.LIFTED: "stopped"}
OF_OUTAGES = (*_BEGIN, *_END)


def still_in_force(entries: Iterable[Entry]) -> list[Entry]:
    """Of the words about power, shut supplies and stops those that began what has not ended since, in order."""
    begun: dict[tuple[str, str | None], Entry] = {}
    for entry in in_order(entries):
        place = entry.supply if entry.kind in (Kind.SHUT, Kind.FREED) else entry.controller
        if entry.kind in _BEGIN:
            begun.setdefault((_BEGIN[entry.kind], place), entry)
        elif entry.kind in _END:
            ended = [key for key in begun if key[0] == _END[entry.kind] and place in (None, key[1])]
            for key in ended:
                del begun[key]
    return in_order(begun.values())


def with_late_runs(sheet: NightSheet | None, before: NightSheet | None, noon: int) -> NightSheet | None:
    """The night's sheet together with the runs of the night before that end shortly before noon, or after it."""
    if before is None:
        return sheet
    late = tuple(run for run in before.runs if run.end > noon - ACROSS_S)
    if sheet is None:
        return replace(before, runs=late, starts=noon) if late else None
    return replace(sheet, runs=(*late, *sheet.runs))
