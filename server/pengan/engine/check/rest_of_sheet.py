"""The rest of a stored sheet of a night that is under way, against the document, the outages and what ran before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from ..clock.nights import night_on
from ..clock.zones import clock_of
from ..document.document import Document
from ..journal.outages import FOREVER, Outages
from ..message import saying
from ..plan.build import Built, build
from ..plan.problem import Chain, Plan, Problem, Span
from ..plan.sheet import NightSheet, Run
from ..plan.spans import without
from . import violations
from .sweep import excesses
from .violation import Violation

SOAK, SHARE, STRANGE, RESTING = "rest_soak", "rest_share", "rest_run", "rest_resting"
TOO_SOON = saying("check.rest_soak", "{station} would run again before its soak of {soak_s} is over.")
TOO_MUCH = saying("check.rest_share", "{station} would run for longer tonight than it is due.")
NOT_DUE = saying("check.rest_run", "{station} has a run to come that is not due this night.")
NO_REST = saying("check.rest_resting", "{controller} would open a valve while one that has just closed rests.")


def rest_violations(document: Document, sheet: NightSheet, now: int, outages: Outages) -> tuple[Violation, ...]:
    """Every limit, closure and outage that the sheet breaks from the instant `now` on. What ran before is as it is.

    Raises `ClockFault` where the site's clock or the sheet's date is none.
    """
    clock = clock_of(document.site)
    ran = {run.turn for run in sheet.runs if run.start < now}
    built = build(document, night_on(clock, date.fromisoformat(sheet.night)), clock, ran)
    runs = _by_turn(sheet)
    return tuple(_Rest(built, runs, built.tonight.second(now), outages).all())


class _Rest:
    """The runs of each turn in seconds of the night, and what is still to come of them."""

    def __init__(self, built: Built, runs: Mapping[str, list[Run]], now: int, outages: Outages) -> None:
        self.built, self.now, self.outages, self.runs = built, now, outages, runs
        second = built.tonight.second
        self.spans = {turn: [(second(run.start), second(run.end)) for run in mine] for turn, mine in runs.items()}

    def all(self) -> Iterator[Violation]:
        yield from self._not_due()
        for due, chain in zip(self.built.dues, self.built.problem.chains, strict=True):
            yield from self._of_turn(chain, due.seconds)
        yield from self._resting()
        yield from violations(*self._to_come())

    def _not_due(self) -> Iterator[Violation]:
        known = {chain.key for chain in self.built.problem.chains}
        for turn, mine in self.runs.items():
            late = [run for run in mine if self.built.tonight.second(run.start) >= self.now]
            if turn not in known and late:
                second = self.built.tonight.second(late[0].start)
                yield Violation(STRANGE, NOT_DUE(station=late[0].station), turn, second)

    def _of_turn(self, chain: Chain, due: int) -> Iterator[Violation]:
        spans = self.spans.get(chain.key, [])
        station = self.built.problem.stations[chain.station]
        over = [end for _, end in spans if end <= self.now]
        late = [span for span in spans if span[1] > self.now]
        if late and over and late[0][0] >= self.now and late[0][0] < max(over) + chain.soak:
            yield Violation(SOAK, TOO_SOON(station=station, soak_s=chain.soak), chain.key, late[0][0])
        if late and sum(end - start for start, end in spans) > due:
            yield Violation(SHARE, TOO_MUCH(station=station), chain.key, late[0][0])

    def _resting(self) -> Iterator[Violation]:
        """A new opening in the place of a valve that closed before now and still rests."""
        for index, cabinet in enumerate(self.built.problem.controllers):
            mine = [chain for chain in self.built.problem.chains if chain.controller == index]
            spans = [span for chain in mine for span in self.spans.get(chain.key, [])]
            if cabinet.max_open is None or not cabinet.gap:
                continue
            for excess in excesses([(start, end + cabinet.gap, 1) for start, end in spans], cabinet.max_open):
                if any(self.now <= start and excess.start <= start < excess.end for start, _ in spans):
                    yield Violation(RESTING, NO_REST(controller=cabinet.key), cabinet.key, excess.start)

    def _to_come(self) -> tuple[Problem, Plan]:
        """The night from now on as a problem of its own: open runs from now, each turn as many cycles as it has."""
        problem = self.built.problem
        calendars = [self._calendar(chain) for chain in problem.chains]
        chains, rows = [], []
        for c, chain in enumerate(problem.chains):
            late = [(max(start, self.now), end) for start, end in self.spans.get(chain.key, []) if end > self.now]
            begun = any(start < self.now for start, _ in self.spans.get(chain.key, []))
            cycles, rows_of = tuple(end - start for start, end in late), tuple(start for start, _ in late)
            fixed = None if begun or chain.fixed not in rows_of[:1] else chain.fixed
            chains.append(replace(chain, cycles=cycles, calendar=c, begun=begun, fixed=fixed))
            rows.append(rows_of)
        return replace(problem, chains=tuple(chains), calendars=tuple(calendars)), Plan(tuple(rows), (), 0)

    def _calendar(self, chain: Chain) -> tuple[Span, ...]:
        station = self.built.tonight.document.stations[self.built.problem.stations[chain.station]]
        out = self.outages
        dry = [
            *out.power.get(station.controller, ()),
            *out.shut.get(station.supply, ()),
            *out.stopped,
        ]
        length, second = self.built.tonight.length, self.built.tonight.second
        taken = sorted((max(0, second(a)), length if b == FOREVER else min(length, second(b))) for a, b in dry)
        spans: Sequence[Span] = self.built.problem.calendars[chain.calendar]
        for span in taken:
            spans = without(spans, [span], length) if span[0] < span[1] else spans
        return tuple(spans)


def _by_turn(sheet: NightSheet) -> Mapping[str, list[Run]]:
    found: dict[str, list[Run]] = defaultdict(list)
    for run in sorted(sheet.runs, key=lambda run: run.start):
        found[run.turn].append(run)
    return found
