"""What a person should know about tonight that is no shortfall. Each notice is a sentence and a rule beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..clock.days import holds
from ..clock.times import moment_on, read_time
from ..message import Message, saying, saying_plural
from .calendars import Calendar
from .dues import Due, asked_second, asked_tonight, program_start, turns_by_program
from .spans import common, holding
from .tonight import Tonight

MOST_NAMED = 5
"""Of how many stations each is named; beyond that they are counted."""

EMPTY_PROGRAM = saying("notice.empty_program", "Program {program} has no turns.")
IDLE_STATION = saying("notice.idle_station", "{station} is in no program.")
IDLE_STATIONS = saying_plural(
    "notice.idle_stations",
    "{idle_count} station is in no program.",
    "{idle_count} stations are in no program.",
    count="idle_count",
)
NOTHING_LEFT = saying(
    "notice.nothing_left", "{station} does not run in program {program}: {share_pct} of its time is nothing."
)
PROGRAM_OFF = saying("notice.program_off", "Program {program} does not run: its seasonal percentage is 0.")
SITE_OFF = saying("notice.site_off", "No program runs tonight: the site's seasonal percentage is 0.")
START_OUTSIDE = saying_plural(
    "notice.start_outside",
    "Program {program} starts at {start_at}, outside the water window of {outside_count} of its stations; "
    "the first opens at {opens_at}.",
    "Program {program} starts at {start_at}, outside the water windows of {outside_count} of its stations; "
    "the first opens at {opens_at}.",
    count="outside_count",
)
SOAKS_TOO_LONG = saying(
    "notice.soaks_too_long",
    "{station} needs {needed_s} with its soaks in program {program}; from first to last it may run within {open_s}.",
)
NO_SUN_START = saying(
    "notice.no_sun_start", "Program {program} does not start: on {start_date} the sun neither rises nor sets."
)
ASKED_NEVER = saying(
    "notice.asked_never", "{asked_clock} does not come tonight: what was asked for then runs when it can."
)
ASKED_EMPTY = saying("notice.asked_empty", "Program {program} was asked for, but has no turns.")
RECLAIMED = saying(
    "notice.reclaimed",
    "Caution: {supply} carries reclaimed water. Keep people away from its spray, never drink it, and follow the "
    "rules of the health and water authorities.",
)


@dataclass(frozen=True, slots=True)
class Known:
    """What is known before anything is placed. `calendars` stand beside `dues`."""

    tonight: Tonight
    dues: Sequence[Due]
    calendars: Sequence[Calendar]


def by_need(known: Known) -> Iterator[Message]:
    """What keeps a run time that should be worked out from being so, and what was assumed."""
    yield from known.tonight.needs.messages


def notices(known: Known) -> tuple[Message, ...]:
    """All notices of this file, rule by rule."""
    rules = (
        idle_stations,
        empty_programs,
        nothing_left,
        starts_outside,
        soaks_too_long,
        no_sun,
        asked_for,
        by_need,
        reclaimed,
    )
    return tuple(message for rule in rules for message in rule(known))


def idle_stations(known: Known) -> Iterator[Message]:
    """Stations without a turn: each by name, or their number where they are many."""
    document = known.tonight.document
    busy = {turn.station for turn in document.turns.values()}
    idle = sorted(station for station in document.stations if station not in busy)
    if len(idle) > MOST_NAMED:
        yield IDLE_STATIONS(idle_count=len(idle))
    else:
        yield from (IDLE_STATION(station=station) for station in idle)


def empty_programs(known: Known) -> Iterator[Message]:
    """Programs without a turn."""
    for program, turns in sorted(turns_by_program(known.tonight).items()):
        if not turns:
            yield EMPTY_PROGRAM(program=program)


def nothing_left(known: Known) -> Iterator[Message]:
    """Turns of which the seasonal percentages leave not one second."""
    site_pct = known.tonight.document.site.seasonal_pct
    gone = [due for due in known.dues if not due.cycles and due.program]
    if gone and site_pct == 0:
        yield SITE_OFF()
        return
    off = {due.program.id for due in gone if due.program and due.program.seasonal_pct == 0}
    yield from (PROGRAM_OFF(program=program) for program in sorted(off))
    for due in gone:
        if due.program and due.program.id not in off:
            share = site_pct * due.program.seasonal_pct / 100
            yield NOTHING_LEFT(station=due.station.id, program=due.program.id, share_pct=share)


def starts_outside(known: Known) -> Iterator[Message]:
    """Programs that start where stations of theirs have no window open, though one opens later."""
    waiting: dict[str, list[int]] = {}
    for due, calendar in zip(known.dues, known.calendars, strict=True):
        if due.asked is not None or due.program is None or due.program.start is None or not due.cycles:
            continue
        opens = [start for start, _ in calendar.windows if start > due.release]
        if opens and holding(calendar.windows, due.release) is None:
            waiting.setdefault(due.program.id, []).append(opens[0])
    for program, opens in sorted(waiting.items()):
        start = known.tonight.instant(program_start(known.tonight, known.tonight.document.programs[program]) or 0)
        first = known.tonight.instant(min(opens))
        yield START_OUTSIDE(program=program, start_at=start, outside_count=len(opens), opens_at=first)


def soaks_too_long(known: Known) -> Iterator[Message]:
    """Turns that with all their soaks last longer than there is between the first and the last moment they may run."""
    for due, calendar in zip(known.dues, known.calendars, strict=True):
        spans = common(calendar.spans, [(due.release, due.deadline)])
        if due.program is None or len(due.cycles) < 2 or not spans:
            continue
        needed, open_s = due.seconds + due.soak * (len(due.cycles) - 1), spans[-1][1] - spans[0][0]
        if needed > open_s:
            yield SOAKS_TOO_LONG(station=due.station.id, program=due.program.id, needed_s=needed, open_s=open_s)


def no_sun(known: Known) -> Iterator[Message]:
    """Programs due by their day rule whose start goes by a sun that does not rise or set."""
    tonight = known.tonight
    for program in sorted(tonight.document.programs.values(), key=lambda program: program.id):
        if program.start is None or read_time(program.start).event is None:
            continue
        if program_start(tonight, program) is not None:
            continue
        for day in tonight.dates:
            if holds(program, day) and moment_on(program.start, day, tonight.clock, tonight.place) is None:
                yield NO_SUN_START(program=program.id, start_date=day.isoformat())
                break


def asked_for(known: Known) -> Iterator[Message]:
    """Asked-for times that do not come tonight, and asked-for programs of no turns."""
    turns = turns_by_program(known.tonight)
    for asked in sorted(asked_tonight(known.tonight), key=lambda asked: asked.id):
        if asked.at is not None and asked_second(known.tonight, asked) is None:
            yield ASKED_NEVER(asked_clock=asked.at)
        if asked.program is not None and not turns[asked.program]:
            yield ASKED_EMPTY(program=asked.program)


def reclaimed(known: Known) -> Iterator[Message]:
    """Where reclaimed water that something is due from enters: not each main behind it once more."""
    tonight = known.tonight
    supplies = tonight.document.supplies
    used = {supply for due in known.dues if due.cycles for supply in tonight.path(due.station.supply)}
    for supply in sorted(used):
        fed_by = supplies[supply].fed_by
        if supplies[supply].water == "reclaimed" and (fed_by is None or supplies[fed_by].water != "reclaimed"):
            yield RECLAIMED(supply=supply)
