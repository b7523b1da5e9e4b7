"""Why each run is where it is: the ladder of limits that it climbed, worked out from the finished plan.

Each rung is one limit, and the earliest instant from which that limit alone, all other runs as they are, would have
allowed the run at any time until its actual start. The last rung decides. Not a line of this asks the solver: what it
says is true of the sheet, whoever made it. O(log n) a rung.

Rungs below the floor (program start, window, closure) are left out: nothing could have happened there anyway.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..message import Message, saying
from .build import Built
from .loads import AllLoads
from .placed import Placed
from .sheet import Rung
from .spans import holding, last_end
from .why_limits import Rungs, limit_rungs
from .why_others import other_rungs

PROGRAM_STARTS = saying("why.program_starts", "Program {program} starts.")
FROM_NOON = saying("why.from_noon", "Program {program} has no start: from noon on.")
ASKED_TIME = saying("why.asked_time", "It was asked for at this time.")
ASKED_SOON = saying("why.asked_soon", "It was asked for as soon as there is water.")
WINDOW_OPENS = saying("why.window_opens", "Waits until its water window {window} opens.")
CLOSURE_ENDS = saying("why.closure_ends", "Waits until {closure} is over.")
SUPPLY_FILLS = saying("why.supply_fills", "Waits until {supply} has filled its pipes, which takes {lead_s}.")
AS_LATE = saying("why.as_late_as_possible", "Runs as late as the finish time and the other runs allow.")
WATER_KEPT = saying(
    "why.water_kept", "Could begin at {free_at}; until then the water is kept so that larger stations fit."
)


@dataclass(frozen=True, slots=True)
class Why:
    """A run's ladder, lowest rung first, and the message that decides: its last rung's."""

    ladder: tuple[Rung, ...]

    @property
    def decides(self) -> Message:
        """The limit that the run waited for longest."""
        return self.ladder[-1].why


def reasons(built: Built, runs: Sequence[Placed], loads: AllLoads) -> list[Why]:
    """One for each run, in the order of `runs`."""
    climbed: Rungs = [[] for _ in runs]
    other_rungs(built.problem, runs, climbed)
    limit_rungs(built.problem, loads, climbed)
    return [_why(built, run, rungs) for run, rungs in zip(runs, climbed, strict=True)]


def _why(built: Built, run: Placed, rungs: list[tuple[int, Message]]) -> Why:
    base = _base(built, run)
    floor = max(second for second, _ in base)
    ladder = sorted([*base, *(rung for rung in rungs if rung[0] > floor)], key=_second)
    chain = built.problem.chains[run.chain]
    if ladder[-1][0] < run.start:
        free = built.tonight.instant(ladder[-1][0])
        ladder.append((run.start, AS_LATE() if chain.late else WATER_KEPT(free_at=free)))
    starts = built.tonight.night.starts
    return Why(tuple(Rung(message, starts + second) for second, message in ladder))


def _second(rung: tuple[int, Message]) -> int:
    return rung[0]


def _base(built: Built, run: Placed) -> list[tuple[int, Message]]:
    """What is fixed before anything runs: the start, the window, closures, the filling of pipes."""
    calendar = built.calendars[run.chain]
    found = [_release(built, run)]
    window = holding(calendar.windows, run.start)
    if window and window[0] > 0:
        opened = calendar.opened_by.get(window[0])
        found.append((window[0], WINDOW_OPENS(window=opened)))
    ended = [(end, shut.closure.id) for shut in calendar.shut if (end := last_end(shut.spans, run.start)) is not None]
    if ended and (last := max(ended))[0] > found[-1][0]:
        found.append((last[0], CLOSURE_ENDS(closure=last[1])))
    filled = holding(calendar.filled, run.start) if calendar.filled is not None else None
    if filled and filled[0] > 0:
        source = built.tonight.document.supplies[built.tonight.path(built.dues[run.chain].station.supply)[-1]]
        found.append((filled[0], SUPPLY_FILLS(supply=source.id, lead_s=source.lead_s)))
    return found


def _release(built: Built, run: Placed) -> tuple[int, Message]:
    due = built.dues[run.chain]
    if due.asked is not None:
        timed = due.fixed is not None or due.release > 0
        return due.release, ASKED_TIME() if timed else ASKED_SOON()
    assert due.program is not None
    what = PROGRAM_STARTS if due.program.start is not None else FROM_NOON
    return due.release, what(program=due.program.id)
