"""The rungs of what one run owes to another: soaks, listed order, stations kept apart, a station's other turns."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from ..message import saying
from .placed import Placed
from .problem import Problem
from .why_limits import Rungs

SOAK_ENDS = saying("why.soak_ends", "Waits for its soak of {soak_s} after cycle {before_count}.")
CYCLE_ENDS = saying("why.cycle_ends", "Follows its cycle {before_count}.")
PROGRAM_ORDER = saying("why.program_order", "Waits for {station}, listed above it in program {program}, to begin.")
APART = saying("why.apart", "Waits for {station} to close: the two are kept apart.")
STATION_BUSY = saying("why.station_busy", "Waits for its own station, which another turn keeps open.")


def other_rungs(problem: Problem, runs: Sequence[Placed], climbed: Rungs) -> None:
    """Add, for each run, what it waited for among single other runs."""
    by_station: dict[int, list[Placed]] = {}
    ends: dict[tuple[int, int], int] = {}
    for run in runs:
        by_station.setdefault(problem.chains[run.chain].station, []).append(run)
        ends[run.chain, run.cycle] = run.end
    begins = {station: [run.start for run in mine] for station, mine in by_station.items()}
    above = _begun_above(problem, runs)
    for run, rungs in zip(runs, climbed, strict=True):
        chain = problem.chains[run.chain]
        if run.cycle:
            said = (
                SOAK_ENDS(soak_s=chain.soak, before_count=run.cycle)
                if chain.soak
                else CYCLE_ENDS(before_count=run.cycle)
            )
            rungs.append((ends[run.chain, run.cycle - 1] + chain.soak, said))
        elif run.chain in above:
            second, other = above[run.chain]
            program = problem.programs[chain.program].key
            rungs.append((second, PROGRAM_ORDER(station=problem.stations[other], program=program)))
        mine, at = by_station[chain.station], bisect_left(begins[chain.station], run.start)
        busy = next((one.end for one in reversed(mine[:at]) if one.chain != run.chain), None)
        if busy is not None:
            rungs.append((busy, STATION_BUSY()))
        for other in sorted(problem.apart[chain.station]):
            place = bisect_left(begins.get(other, ()), run.start)
            if place:
                rungs.append((by_station[other][place - 1].end, APART(station=problem.stations[other])))


def _begun_above(problem: Problem, runs: Sequence[Placed]) -> dict[int, tuple[int, int]]:
    """For each chain of an ordered program: when the latest of those above it begins, and which station that is."""
    first = {run.chain: run.start for run in runs if run.cycle == 0}
    latest: dict[int, tuple[int, int]] = {}
    found: dict[int, tuple[int, int]] = {}
    for index, chain in enumerate(problem.chains):
        if not problem.programs[chain.program].ordered or index not in first:
            continue
        if chain.program in latest:
            found[index] = latest[chain.program]
        latest[chain.program] = max(latest.get(chain.program, (-1, 0)), (first[index], chain.station))
    return found
