"""What is left of a night at a moment: every due turn as far as it came, and when it may still run."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from ..plan.build import Built
from ..plan.calendars import Calendar
from ..plan.dues import ASKED_RANK
from ..plan.problem import Chain, Problem, Span
from ..plan.sheet import NightSheet
from ..plan.solve.score import RANKS
from ..plan.spans import common
from .happened import Happened
from .interrupted import Interrupted
from .served import Edited, Served, Stretch, served

Row = tuple[tuple[int, int], ...]
"""Runs of one turn still to come: start and seconds of each."""


@dataclass(frozen=True)
class Left:
    """`turns` and `calendars` stand beside the chains of `built.problem`; seconds of the night.

    `edited`: the site may have changed since `before`, the sheet that is in force until now.
    """

    built: Built
    before: NightSheet
    happened: Happened
    now: int
    edited: bool
    turns: tuple[Served, ...]
    calendars: tuple[Calendar, ...]
    by_need: bool = False

    @property
    def chains(self) -> tuple[Chain, ...]:
        """The due turns, whole."""
        return self.built.problem.chains

    @cached_property
    def ready(self) -> tuple[int, ...]:
        """From when each turn's next cycle may run once what is going is over, its calendar apart."""
        return tuple(self._ready(c, turn.going.whole if turn.going else None) for c, turn in enumerate(self.turns))

    def ready_by_clock(self, c: int) -> int:
        """The same if what is going ends by the clock."""
        going = self.turns[c].going
        return self._ready(c, going.clock if going else None)

    @cached_property
    def ranks(self) -> tuple[int, ...]:
        """Who comes first: by rank; `by_need`, those of one rank that got less than half of their water before others.

        Where that makes more ranks than the solver tells apart, by rank alone.
        """
        pairs = [(chain.rank, self.by_need and not self.needy(c)) for c, chain in enumerate(self.chains)]
        steps = sorted({pair for pair in pairs if pair[0] != ASKED_RANK})
        if not self.by_need or len(steps) > RANKS:
            return tuple(chain.rank for chain in self.chains)
        number = {pair: place for place, pair in enumerate(steps, 1)}
        return tuple(number.get(pair, ASKED_RANK) for pair in pairs)

    def needy(self, c: int) -> bool:
        """Whether a turn has got less than half of its water, with what is going."""
        return 2 * self.turns[c].seconds < sum(self.chains[c].cycles)

    def problem(self, chains: Sequence[Chain]) -> Problem:
        """The rest of the night with these chains of `chain` and `going`."""
        spans = tuple(dict.fromkeys(calendar.spans for calendar in self.calendars)) or ((),)
        number = {each: place for place, each in enumerate(spans)}
        placed = tuple(replace(chain, calendar=number[self.calendars[chain.calendar].spans]) for chain in chains)
        return replace(self.built.problem, chains=placed, calendars=spans)

    def chain(self, c: int, cycles: tuple[int, ...], release: int, fixed: int | None = None) -> Chain:
        """What is to come of a turn; `calendar` is still the number of its chain in the night."""
        begun, rank = self.turns[c].begun, self.ranks[c]
        return replace(self.chains[c], cycles=cycles, release=release, fixed=fixed, begun=begun, rank=rank, calendar=c)

    def going(self, *, whole: bool) -> list[Chain]:
        """The open runs from now on, each a chain of its own: until it is whole, or until the clock ends it.

        They have the first rank, so that nothing is placed instead of them.
        """
        return [
            replace(self.chain(c, (seconds,), self.now, self.now), key=f"{self.chains[c].key}/going", rank=ASKED_RANK)
            for c, turn in enumerate(self.turns)
            if turn.going and (seconds := (turn.going.whole if whole else turn.going.clock) - self.now) > 0
        ]

    def _ready(self, c: int, going_until: int | None) -> int:
        chain, turn = self.chains[c], self.turns[c]
        ends = [end for _, end in turn.past] + ([] if going_until is None else [going_until])
        soaked = max(ends) + chain.soak if ends else 0
        return max(self.now, 0, chain.release, soaked, self._rested.get(chain.controller, 0))

    @cached_property
    def _rested(self) -> dict[int | None, int]:
        """From when on each controller that has such a rest has let all its closed valves rest."""
        found: dict[int | None, int] = {}
        for chain, turn in zip(self.chains, self.turns, strict=True):
            if chain.controller is None or self.built.problem.controllers[chain.controller].max_open is None:
                continue
            closed = max((end for _, end in turn.past), default=0)
            over = closed + self.built.problem.controllers[chain.controller].gap
            found[chain.controller] = max(found.get(chain.controller, 0), over)
        return found


def left_at(built: Built, before: NightSheet, happened: Happened, now: int, *, edited: bool) -> Left:
    """What is left at the second `now`, open runs as they are: `sound.closing` closes those that cannot go on."""
    interrupted = Interrupted(built.tonight, happened.outages, now)
    calendars = tuple(interrupted.of(due) for due in built.dues)
    ran, planned = _stretches(built, happened), _planned(built, before)
    short = _short(before)
    turns = tuple(
        served(
            chain,
            ran[chain.key],
            planned[chain.key],
            common(calendar.spans, [(0, chain.deadline)]),
            now,
            _edited(planned[chain.key], short[chain.key], now) if edited else None,
        )
        for chain, calendar in zip(built.problem.chains, calendars, strict=True)
    )
    return Left(built, before, happened, now, edited, turns, calendars)


def _stretches(built: Built, happened: Happened) -> dict[str, list[Stretch]]:
    second = built.tonight.second
    found: dict[str, list[Stretch]] = defaultdict(list)
    for one in happened.ran:
        run = second(one.run[0]), second(one.run[1])
        found[one.turn].append(Stretch(second(one.start), second(one.end), run, one.going))
    return found


def _short(before: NightSheet) -> dict[str, int]:
    """The cycles that fell short of each turn."""
    found: dict[str, int] = defaultdict(int)
    for one in before.shortfalls:
        found[one.turn] += one.cycles
    return found


def _edited(planned: Sequence[Span], short: int, now: int) -> Edited:
    ended = sum(1 for _, end in planned if end <= now)
    return Edited(ended, len(planned) - ended, short)


def _planned(built: Built, before: NightSheet) -> dict[str, list[Span]]:
    second = built.tonight.second
    found: dict[str, list[Span]] = defaultdict(list)
    for run in before.runs:
        found[run.turn].append((second(run.start), second(run.end)))
    return found
