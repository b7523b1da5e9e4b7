"""Why a cycle did not fit, found after the fact: the limit that leaves it no room among the runs of the plan.

Each limit is asked alone, all other runs as they are: is there anywhere, in what the turn's calendar gives it, a
stretch as long as the cycle with room for it? The first that has none is told. Where each alone has room and only
together they leave none, the one with the least room is told as such.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..message import Message, saying
from .build import Built
from .levels import stretches_within
from .loads import AllLoads, LimitLoads
from .placed import Placed
from .problem import Chain, Plan, Span
from .sheet import Shortfall
from .shortfalls import shortfall
from .spans import common, merged, rest_of
from .water import litres

SUPPLY_FULL = saying(
    "short.supply_full", "{supply} has {flow_lpm} to spare for {needed_s} on end nowhere before {until_at}."
)
CONTROLLER_FULL = saying(
    "short.controller_full", "{controller} has no place for its valve for {needed_s} on end before {until_at}."
)
CURRENT_FULL = saying(
    "short.current_full", "{controller} has no {current_ma} to spare for {needed_s} on end before {until_at}."
)
PROGRAM_FLOW_FULL = saying(
    "short.program_flow_full", "Program {program} has no {flow_lpm} left of its own limit before {until_at}."
)
PROGRAM_OPEN_FULL = saying(
    "short.program_open_full", "Program {program} has as many stations open as it may until {until_at}."
)
APART_FULL = saying("short.apart_full", "Stations that it is kept apart from leave it no room before {until_at}.")
STATION_FULL = saying("short.station_full", "Its station's other turns leave it no room before {until_at}.")
AFTER_SOAK = saying(
    "short.after_soak", "After its cycle {done_count} and the soak, too little time is left before {until_at}."
)
TOGETHER = saying(
    "short.together",
    "No limit alone stops it, but together, {supply} first of all, they leave no room before {until_at}.",
)
AT_ASKED_TIME = saying(
    "short.at_asked_time", "At {start_at}, when it was asked for, others that were asked for take the room."
)


class LeftOut:
    """The plan as those see it who found no place in it."""

    def __init__(self, built: Built, runs: Sequence[Placed], loads: AllLoads) -> None:
        self.built = built
        self.loads = loads
        self.problem = built.problem
        self._room: dict[tuple[str, int, int], list[Span]] = {}
        self._open: dict[int, list[tuple[int, Span]]] = {}
        for run in runs:
            station = self.problem.chains[run.chain].station
            self._open.setdefault(station, []).append((run.chain, (run.start, run.end)))

    def shortfalls(self, plan: Plan) -> Iterator[Shortfall]:
        """One for each chain of which cycles are missing."""
        for index, (chain, starts) in enumerate(zip(self.problem.chains, plan.starts, strict=True)):
            done = next((cycle for cycle, start in enumerate(starts) if start is None), None)
            if done is not None:
                why = self._why(index, done, starts)
                yield shortfall(self.built.dues[index], done, why, until=len(chain.cycles))

    def _why(self, index: int, done: int, starts: tuple[int | None, ...]) -> Message:
        chain = self.problem.chains[index]
        needed = chain.cycles[done]
        before = starts[done - 1] if done else None
        ready = chain.release if before is None else before + chain.cycles[done - 1] + chain.soak
        last = min(chain.deadline, chain.fixed + needed) if chain.fixed is not None and not done else chain.deadline
        spans = common(self.problem.calendars[chain.calendar], [(ready, last)])
        spans = [(start, end) for start, end in spans if end - start >= needed]
        until = self.built.tonight.instant(max((end for _, end in spans), default=chain.deadline))
        if not spans:
            return AFTER_SOAK(done_count=done, until_at=until)
        for said, room in self._rooms(index, needed, until):
            if not _fits(common(spans, room), needed):
                return said
        if chain.fixed is not None and not done:
            return AT_ASKED_TIME(start_at=self.built.tonight.instant(chain.fixed))
        return TOGETHER(supply=self._scarcest(index, spans), until_at=until)

    def _rooms(self, index: int, needed: int, until: int) -> Iterator[tuple[Message, list[Span]]]:
        """Each limit on the chain, what to say of it, and where it alone has room."""
        chain = self.problem.chains[index]
        for limit, amount in self.loads.limits_of(index):
            if limit.limit is not None:
                yield self._says(limit, chain, needed, until), self._room_at(limit, amount)
        own = [span for other, span in self._open.get(chain.station, ()) if other != index]
        if own:
            yield STATION_FULL(until_at=until), rest_of(merged(own), self.problem.length)
        others = [span for station in self.problem.apart[chain.station] for _, span in self._open.get(station, ())]
        if others:
            yield APART_FULL(until_at=until), rest_of(merged(others), self.problem.length)

    def _room_at(self, limit: LimitLoads, amount: int) -> list[Span]:
        """Where the limit has room for the amount; its gap has to fit as well."""
        assert limit.limit is not None
        key = limit.what, limit.index, amount
        if key not in self._room:
            room = stretches_within(limit.steps, limit.limit - amount, self.problem.length + limit.gap)
            self._room[key] = [(start, end - limit.gap) for start, end in room if end - limit.gap > start]
        return self._room[key]

    def _says(self, limit: LimitLoads, chain: Chain, needed: int, until: int) -> Message:
        if limit.what == "flow":
            supply = self.problem.supplies[limit.index].key
            return SUPPLY_FULL(supply=supply, flow_lpm=litres(chain.flow), needed_s=needed, until_at=until)
        if limit.what in ("open", "current"):
            controller = self.problem.controllers[limit.index].key
            if limit.what == "open":
                return CONTROLLER_FULL(controller=controller, needed_s=needed, until_at=until)
            return CURRENT_FULL(controller=controller, current_ma=chain.current, needed_s=needed, until_at=until)
        program = self.problem.programs[limit.index].key
        if limit.what == "program_flow":
            return PROGRAM_FLOW_FULL(program=program, flow_lpm=litres(chain.flow), until_at=until)
        return PROGRAM_OPEN_FULL(program=program, until_at=until)

    def _scarcest(self, index: int, spans: list[Span]) -> str:
        """The supply on the chain's path with the least time that has room for it; its own if none is limited."""
        chain = self.problem.chains[index]
        limited = [
            limit for limit, _ in self.loads.limits_of(index) if limit.what == "flow" and limit.limit is not None
        ]
        if not limited:
            return self.problem.supplies[chain.supply].key
        scarcest = min(limited, key=lambda limit: _total(common(spans, self._room_at(limit, chain.flow))))
        return self.problem.supplies[scarcest.index].key


def _fits(spans: list[Span], needed: int) -> bool:
    return any(end - start >= needed for start, end in spans)


def _total(spans: list[Span]) -> int:
    return sum(end - start for start, end in spans)
