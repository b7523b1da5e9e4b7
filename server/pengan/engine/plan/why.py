"""Why each run is where it is: the ladder of limits that it climbed, worked out from the finished plan.

Each rung is one limit, and the earliest instant from which that limit alone, all other runs as they are, would have
allowed the run at any time until its actual start. The last rung decides. Not a line of this asks the solver: what it
says is true of the sheet, whoever made it. O(log n) a rung.

Rungs below the floor (program start, window, closure) are left out: nothing could have happened there anyway.
"""

from __future__ import annotations

from bisect import bisect_right
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
    floors = _Floors(built)
    return [_why(built, run, floors.of(run), rungs) for run, rungs in zip(runs, climbed, strict=True)]


@dataclass(frozen=True, slots=True)
class _Floor:
    """The rungs that stand before anything runs, and the second of the last of them."""

    second: int
    rungs: tuple[Rung, ...]


def _why(built: Built, run: Placed, floor: _Floor, rungs: list[tuple[int, Message]]) -> Why:
    starts = built.tonight.night.starts
    rungs = [rung for rung in rungs if rung[0] > floor.second]
    if len(rungs) > 1:
        rungs.sort(key=_second)
    free = rungs[-1][0] if rungs else floor.second
    if free < run.start:
        late = built.problem.chains[run.chain].late
        rungs.append((run.start, AS_LATE() if late else WATER_KEPT(free_at=starts + free)))
    return Why((*floor.rungs, *(Rung(message, starts + second) for second, message in rungs)))


def _second(rung: tuple[int, Message]) -> int:
    return rung[0]


class _Floors:
    """The lowest rungs of every run, worked out once for all runs of one start between two edges of one calendar."""

    def __init__(self, built: Built) -> None:
        self._built = built
        self._known: dict[tuple[object, ...], _Floor] = {}

    def of(self, run: Placed) -> _Floor:
        due, calendar = self._built.dues[run.chain], self._built.calendars[run.chain]
        program = due.program.id if due.program else None
        key = (program, due.asked, due.release, id(calendar), bisect_right(calendar.edges, run.start))
        floor = self._known.get(key)
        if floor is None:
            starts = self._built.tonight.night.starts
            base = sorted(_base(self._built, run), key=_second)
            floor = _Floor(base[-1][0], tuple(Rung(message, starts + second) for second, message in base))
            self._known[key] = floor
        return floor


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
    return [*found, *(one for one in calendar.freed if one[0] <= run.start)]


def _release(built: Built, run: Placed) -> tuple[int, Message]:
    due = built.dues[run.chain]
    if due.asked is not None:
        timed = due.fixed is not None or due.release > 0
        return due.release, ASKED_TIME() if timed else ASKED_SOON()
    assert due.program is not None
    what = PROGRAM_STARTS if due.program.start is not None else FROM_NOON
    return due.release, what(program=due.program.id)
