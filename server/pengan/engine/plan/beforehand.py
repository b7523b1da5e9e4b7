"""What cannot run tonight, known before anything is placed: the turn alone, with nothing else open, has no room.

Each reason is a sentence and a rule beside it. The first that holds is the one told.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..message import Message, saying
from .calendars import Calendar
from .dues import Due
from .problem import Span
from .spans import common, rest_of
from .tonight import Tonight
from .water import millilitres_per_minute

OVER_SUPPLY = saying("short.over_supply", "Alone it takes {flow_lpm}; {supply} gives no more than {limit_lpm}.")
OVER_PROGRAM = saying("short.over_program", "Alone it takes {flow_lpm}; the limit of program {program} is {limit_lpm}.")
OVER_CURRENT = saying(
    "short.over_current", "Its valve alone takes {current_ma}; {controller} gives no more than {limit_ma}."
)
NO_WINDOW = saying("short.no_window", "Its water window {window} does not open tonight.")
NO_WINDOWS_TOGETHER = saying(
    "short.no_windows_together", "The water windows that it needs are not open together tonight."
)
CLOSED_ALL_NIGHT = saying("short.closed_all_night", "{closure} keeps it closed all night.")
CLOSED_BY_SEVERAL = saying(
    "short.closed_by_several", "Several closures, {closure} among them, keep it closed all night."
)
STILL_FILLING = saying("short.still_filling", "{supply} takes {lead_s} to fill its pipes, longer than it may run.")
STARTS_TOO_LATE = saying(
    "short.starts_too_late", "Its program starts at {start_at}, when it has to be done by {finish_at}."
)
CLOSED_FOR_IT = saying(
    "short.closed_for_it",
    "Between {start_at} and {finish_at}, when it may run, no window is open or closures forbid it.",
)
CLOSED_WHEN_ASKED = saying(
    "short.closed_when_asked", "At {start_at}, when it was asked for, no window is open or a closure forbids it."
)
CYCLE_TOO_LONG = saying(
    "short.cycle_too_long", "It needs {needed_s} without a break; the longest that it may run tonight is {open_s}."
)
SOAK_TOO_LONG = saying(
    "short.soak_too_long",
    "With soaks of {soak_s} between its {cycles_count} cycles, no more than {fit_count} fit tonight.",
)


@dataclass(frozen=True, slots=True)
class Alone:
    """One due turn by itself: what it asks for, when it may run, and the night around it."""

    tonight: Tonight
    due: Due
    calendar: Calendar
    spans: list[Span]
    """The calendar's spans within the turn's release and deadline."""


Reason = Callable[[Alone], Message | None]


def alone(tonight: Tonight, due: Due, calendar: Calendar) -> Alone:
    """The turn by itself."""
    return Alone(tonight, due, calendar, common(calendar.spans, [(due.release, due.deadline)]))


def fitting(one: Alone) -> tuple[int, Message | None]:
    """How many of the turn's cycles can run if nothing else does, and why not the others."""
    for reason in (over_supply, over_program, over_current):
        if why := reason(one):
            return 0, why
    fit = _cycles_that_fit(one)
    if fit == len(one.due.cycles):
        return fit, None
    if fit:
        return fit, SOAK_TOO_LONG(soak_s=one.due.soak, cycles_count=len(one.due.cycles), fit_count=fit)
    whys = (reason(one) for reason in (no_window, closed, filling, too_late, closed_for_it, closed_when_asked))
    return 0, next((why for why in whys if why), None) or cycle_too_long(one)


def over_supply(one: Alone) -> Message | None:
    """A supply on the way to the station gives less than the station takes."""
    station = one.due.station
    for supply in one.tonight.path(station.supply):
        limit = one.tonight.document.supplies[supply].limit_lpm
        if limit is not None and millilitres_per_minute(station.flow_lpm) > millilitres_per_minute(limit):
            return OVER_SUPPLY(supply=supply, flow_lpm=station.flow_lpm, limit_lpm=limit)
    return None


def over_program(one: Alone) -> Message | None:
    """The program's own limit is less than the station takes."""
    program, flow = one.due.program, one.due.station.flow_lpm
    if program is None or program.limit_lpm is None:
        return None
    if millilitres_per_minute(flow) <= millilitres_per_minute(program.limit_lpm):
        return None
    return OVER_PROGRAM(program=program.id, flow_lpm=flow, limit_lpm=program.limit_lpm)


def over_current(one: Alone) -> Message | None:
    """The valve takes more current than its controller has."""
    station = one.due.station
    if station.controller is None or station.current_ma is None:
        return None
    limit = one.tonight.document.controllers[station.controller].max_current_ma
    if limit is None or station.current_ma <= limit:
        return None
    return OVER_CURRENT(controller=station.controller, current_ma=station.current_ma, limit_ma=limit)


def no_window(one: Alone) -> Message | None:
    """No window that speaks of it opens, or those that must all be open never are."""
    if one.calendar.windows:
        return None
    named = one.calendar.narrowest
    opened = set(one.calendar.opened_by.values())
    return NO_WINDOWS_TOGETHER() if not named or opened & set(named) else NO_WINDOW(window=named[0])


def closed(one: Alone) -> Message | None:
    """Closures take all that the windows give."""
    open_alone = [common(one.calendar.windows, rest_of(shut.spans, one.tonight.length)) for shut in one.calendar.shut]
    for shut, left in zip(one.calendar.shut, open_alone, strict=True):
        if not left:
            return CLOSED_ALL_NIGHT(closure=shut.closure.id)
    if one.calendar.spans or not one.calendar.shut or _unfilled(one):
        return None
    return CLOSED_BY_SEVERAL(closure=one.calendar.shut[0].closure.id)


def filling(one: Alone) -> Message | None:
    """The source has not filled its pipes before it has to stop."""
    if one.calendar.spans or not _unfilled(one):
        return None
    source = one.tonight.path(one.due.station.supply)[-1]
    return STILL_FILLING(supply=source, lead_s=one.tonight.document.supplies[source].lead_s)


def too_late(one: Alone) -> Message | None:
    """The program starts when it should be done already."""
    if one.due.release < one.due.deadline:
        return None
    start, finish = (one.tonight.instant(second) for second in (one.due.release, one.due.deadline))
    return STARTS_TOO_LATE(start_at=start, finish_at=finish)


def closed_for_it(one: Alone) -> Message | None:
    """Something is open tonight, but not between its start and its finish time."""
    if one.spans:
        return None
    start, finish = (one.tonight.instant(second) for second in (one.due.release, one.due.deadline))
    return CLOSED_FOR_IT(start_at=start, finish_at=finish)


def closed_when_asked(one: Alone) -> Message | None:
    """The chosen time is no time at which it may run."""
    if one.due.fixed is None or any(start <= one.due.fixed < end for start, end in one.spans):
        return None
    return CLOSED_WHEN_ASKED(start_at=one.tonight.instant(one.due.fixed))


def cycle_too_long(one: Alone) -> Message:
    """Open spans are there, but each is shorter than a cycle."""
    spans = one.spans
    if one.due.fixed is not None:
        spans = [(one.due.fixed, end) for start, end in spans if start <= one.due.fixed < end]
    return CYCLE_TOO_LONG(needed_s=one.due.cycles[0], open_s=max(end - start for start, end in spans))


def _cycles_that_fit(one: Alone) -> int:
    """Each cycle as early as it can be, which leaves the most room for those after it."""
    ready, fit = one.due.release, 0
    for seconds in one.due.cycles:
        starts = (max(start, ready) for start, end in one.spans if max(start, ready) + seconds <= end)
        start = next(starts, None)
        if start is None or (fit == 0 and one.due.fixed is not None and start != one.due.fixed):
            break
        ready, fit = start + seconds + one.due.soak, fit + 1
    return fit


def _unfilled(one: Alone) -> bool:
    """Whether it is the lead time of the source that leaves nothing."""
    filled = one.calendar.filled
    return filled is not None and not common(one.calendar.windows, filled)
