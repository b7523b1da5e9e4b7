"""Reading and writing a clock as dated changes: `+01:00, 2026-10-25T01:00Z +00:00, …`.

For a government that says each year anew what the clock will do. The first part is the offset before all changes;
each further part is an instant in UTC and the offset from then on.
"""

from __future__ import annotations

import re
from datetime import datetime, timedelta

from ..message import saying
from .fault import ClockFault
from .instants import EPOCH, Timeline, wall_seconds
from .rules import Change
from .same_day import same_day_fault

FIELD = "zone_changes"
EXAMPLE = "+01:00, 2026-10-25T01:00Z +00:00"

UNREADABLE = saying(
    "clock.change_unreadable", "Part {position_count}, “{part}”, is no dated change; write them like {example}."
)
OUT_OF_ORDER = saying(
    "clock.change_out_of_order", "The change on {change} stands after a later one; put them in order of time."
)
IDLE = saying("clock.change_idle", "The change on {change} sets the clock to the offset it already has.")

_OFFSET = re.compile(r"([+-])(\d\d):([0-5]\d)(?::([0-5]\d))?", re.ASCII)
_CHANGE = re.compile(r"(\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d)?)Z\s+(\S+)", re.ASCII)


def read_dated(text: str) -> Timeline:
    """The timeline dated changes mean. Raises the first of `dated_faults`."""
    timeline, faults = _read(text)
    if faults:
        raise faults[0]
    return timeline


def dated_faults(text: str) -> tuple[ClockFault, ...]:
    """Everything wrong with a list of dated changes."""
    return tuple(_read(text)[1])


def write_dated(timeline: Timeline) -> str:
    """The dated changes of a timeline as text; its yearly rule, if any, is left out."""
    parts = [offset_text(timeline.first_s)]
    parts += [f"{_utc_text(change.at)} {offset_text(change.after_s)}" for change in timeline.dated]
    return ", ".join(parts)


def offset_text(offset_s: int) -> str:
    """An offset as ISO 8601 writes it: `+01:00`, with seconds only where there are some."""
    minutes, seconds = divmod(abs(offset_s), 60)
    text = f"{'-' if offset_s < 0 else '+'}{minutes // 60:02d}:{minutes % 60:02d}"
    return f"{text}:{seconds:02d}" if seconds else text


def _read(text: str) -> tuple[Timeline, list[ClockFault]]:
    parts = [part.strip() for part in text.split(",")]
    faults: list[ClockFault] = []
    settings: list[tuple[int, int]] = []
    first_s = _offset(parts[0])
    if first_s is None:
        faults.append(_unreadable(parts, 0))
    for position in range(1, len(parts)):
        setting = _setting(parts[position])
        if setting is None:
            faults.append(_unreadable(parts, position))
        else:
            settings.append(setting)
    timeline = Timeline(first_s or 0, tuple(_changes(first_s, settings)))
    return timeline, faults + list(_faults_between(timeline))


def _changes(first_s: int | None, settings: list[tuple[int, int]]) -> list[Change]:
    changes: list[Change] = []
    now = first_s
    for at, after in settings:
        changes.append(Change(at, after if now is None else now, after))
        now = after
    return changes


def _faults_between(timeline: Timeline) -> list[ClockFault]:
    faults, latest = [], None
    for change in timeline.dated:
        if latest is not None and change.at <= latest:
            faults.append(ClockFault(OUT_OF_ORDER(change=_utc_text(change.at)), FIELD))
        elif change.step_s == 0:
            faults.append(ClockFault(IDLE(change=_utc_text(change.at)), FIELD))
        latest = change.at if latest is None else max(latest, change.at)
    same_day = same_day_fault(timeline.dated, FIELD)
    return [*faults, same_day] if same_day and not faults else faults


def _unreadable(parts: list[str], position: int) -> ClockFault:
    return ClockFault(UNREADABLE(position_count=position + 1, part=parts[position], example=EXAMPLE), FIELD)


def _offset(text: str) -> int | None:
    match = _OFFSET.fullmatch(text)
    if match is None or int(match[2]) > 23:
        return None
    size = int(match[2]) * 3600 + int(match[3]) * 60 + int(match[4] or 0)
    return -size if match[1] == "-" else size


def _setting(text: str) -> tuple[int, int] | None:
    match = _CHANGE.fullmatch(text)
    offset_s = _offset(match[2]) if match else None
    if match is None or offset_s is None:
        return None
    try:
        return wall_seconds(datetime.fromisoformat(match[1])), offset_s
    except ValueError:
        return None


def _utc_text(at: int) -> str:
    moment = EPOCH + timedelta(seconds=at)
    return moment.isoformat(timespec="seconds" if moment.second else "minutes") + "Z"
