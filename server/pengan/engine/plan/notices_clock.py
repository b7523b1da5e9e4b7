"""What a change of the clock does to tonight: said beforehand, as it catches people out twice a year."""

from __future__ import annotations

from collections.abc import Iterator

from ..clock.rules import Change
from ..clock.times import read_time
from ..message import Message, saying
from .dues import program_start
from .tonight import Tonight

DAY_S = 24 * 3600
FORWARD = saying(
    "notice.clock_forward", "The clock goes forward by {step_s} at {change_clock}: this night lasts {night_s}."
)
BACK = saying("notice.clock_back", "The clock goes back by {step_s} at {change_clock}: this night lasts {night_s}.")
START_MISSING = saying(
    "notice.start_missing", "{start_clock} does not come tonight: program {program} starts at {start_at}."
)
START_TWICE = saying(
    "notice.start_twice", "{start_clock} comes twice tonight: program {program} starts once, the first time."
)


def clock_notices(tonight: Tonight) -> tuple[Message, ...]:
    """Each change in the night, and each program whose start it moves or doubles."""
    changes = tonight.clock.changes(tonight.night.starts, tonight.night.ends)
    return tuple(message for change in changes for message in (_told(tonight, change), *_starts(tonight, change)))


def _told(tonight: Tonight, change: Change) -> Message:
    """The time told is the one on the wall as the clock is changed, as it stands in calendars."""
    what = FORWARD if change.step_s > 0 else BACK
    before = (change.at + change.before_s) % DAY_S
    clock = f"{before // 3600:02}:{before // 60 % 60:02}"
    return what(step_s=abs(change.step_s), change_clock=clock, night_s=tonight.length)


def _starts(tonight: Tonight, change: Change) -> Iterator[Message]:
    for program in sorted(tonight.document.programs.values(), key=lambda program: program.id):
        if program.start is None or read_time(program.start).event is not None:
            continue
        second = program_start(tonight, program)
        if second is None:
            continue
        start = tonight.instant(second)
        if change.at <= start < change.at + change.step_s and not _reads(tonight, start, program.start):
            yield START_MISSING(program=program.id, start_clock=program.start, start_at=start)
        elif change.at + change.step_s <= start < change.at:
            yield START_TWICE(program=program.id, start_clock=program.start)


def _reads(tonight: Tonight, instant: int, clock_time: str) -> bool:
    """Whether the wall reads this time then."""
    wall = tonight.clock.wall(instant)
    return (wall.hour * 3600 + wall.minute * 60 + wall.second) % 86_400 == read_time(clock_time).seconds % 86_400
