"""A watch put away as JSON between two batches of entries, and taken up again where it stood.

What is kept is the night's words about valves and power, each meter's sums and averages, and the cases: some tens of
kilobytes. The document, the sheet, the limits and what is known are given anew, and have to be the same.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from ..document.document import Document
from ..plan.sheet import NightSheet
from .case import Case
from .entry import Entry, Found, Kind
from .finding import Noticed
from .gauge import Gauge, Segment, Side
from .thresholds import Limits
from .watch import Known, Watch

STATE_FORMAT = 1


def put_away(watch: Watch) -> dict[str, Any]:
    """The watch as plain JSON."""
    silence = watch.silence
    return {
        "format": STATE_FORMAT,
        "done": watch.done,
        "waiting": [_entry_as_json(entry) for entry in watch.waiting],
        "told": [_entry_as_json(entry) for entry in watch.valves.told],
        "gauges": [asdict(gauge) for gauge in watch.gauges.values()],
        "cases": [asdict(case) for case in watch.cases.all],
        "silence": {
            "starts": silence.starts, "next": silence.next, "last": silence.last,
            "alive": sorted(silence.alive), "quiet": sorted(silence.quiet),
        },
    }  # fmt: skip


def taken_up(
    document: Document, sheet: NightSheet | None, state: dict[str, Any], limits: Limits | None = None,
    known: Known | None = None,
) -> Watch:  # fmt: skip
    """The watch as it stood. Raises `ValueError` for a state of another format: watch the night anew then."""
    if state.get("format") != STATE_FORMAT:
        raise ValueError(f"watch state of format {state.get('format')!r}")
    watch = Watch(document, sheet, limits, known)
    for entry in map(_entry_from_json, state["told"]):
        watch.valves.advance(entry.at)
        watch.valves.tell(entry)
    watch.valves.advance(state["done"])
    watch.done = state["done"]
    watch.waiting = [_entry_from_json(row) for row in state["waiting"]]
    watch.gauges.update({row["supply"]: _gauge(row) for row in state["gauges"]})
    watch.cases.all = [Case(**{**row, "kind": Noticed(row["kind"])}) for row in state["cases"]]
    kept, silence = state["silence"], watch.silence
    silence.starts, silence.next, silence.last = kept["starts"], kept["next"], dict(kept["last"])
    silence.alive, silence.quiet = set(kept["alive"]), set(kept["quiet"])
    return watch


def _entry_as_json(entry: Entry) -> dict[str, Any]:
    return {name: value for name, value in asdict(entry).items() if value not in (None, "")}


def _entry_from_json(row: dict[str, Any]) -> Entry:
    found = Found(row["finding"]) if "finding" in row else None
    return Entry(**{"by": "", **row, "kind": Kind(row["kind"]), "finding": found})


def _gauge(row: dict[str, Any]) -> Gauge:
    parts = {"over": Side(**row["over"]), "under": Side(**row["under"])}
    return Gauge(**{**row, **parts, "segments": [Segment(**one) for one in row["segments"]]})
