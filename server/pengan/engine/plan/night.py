"""A night worked out: from a site's document and a date to the night sheet."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from datetime import date, timedelta

from .. import ENGINE_VERSION
from ..clock.nights import night_on
from ..clock.zones import clock_of
from ..document.document import Document
from .asked_first import asked_first
from .build import Built, build
from .draws import draw_notices, draws
from .earlier import moved_pct
from .held import finish_of, held, volume_of
from .left_out import LeftOut
from .loads import AllLoads
from .placed import Placed, placed_runs
from .problem import Plan
from .sheet import NightSheet, Run
from .solve import Before, default_effort, solve
from .water import litres, millilitres
from .why import Why, reasons

MOST_OF_A_GLANCE = 3
"""A sheet of so few constructions is a glance: it does not say what more of the deciding limit would bring."""


def plan_night(
    document: Document,
    day: date,
    *,
    effort: int | None = None,
    before: NightSheet | None = None,
    on_construction: Callable[[int], None] | None = None,
) -> NightSheet:
    """The sheet of the night that begins at noon of `day`.

    `effort` counts constructions; the same effort gives the same sheet on every machine. `before` is the sheet this
    one takes the place of: planning starts from it, and the share of runs that move is told. `on_construction`
    hears the number of each construction as it ends. Raises `ClockFault` where the site's clock or the date is none.
    """
    clock = clock_of(document.site)
    built = build(document, night_on(clock, day), clock)
    effort = default_effort(built.problem) if effort is None else effort
    plan = solve(asked_first(built.problem), effort, _earlier(before), on_construction)
    return sheet_of(built, plan, before, with_relief=effort > MOST_OF_A_GLANCE)


def _earlier(before: NightSheet | None) -> Before | None:
    """What the solver needs of an earlier sheet: its order, and the starts of its runs in seconds of its night."""
    if before is None:
        return None
    starts: dict[str, list[int]] = {}
    for run in sorted(before.runs, key=lambda run: run.cycle):
        starts.setdefault(run.turn, []).append(run.start - before.starts)
    return Before(before.order, starts)


def sheet_of(
    built: Built,
    plan: Plan,
    before: NightSheet | None = None,
    *,
    with_relief: bool = True,
    left: tuple[Built, Plan] | None = None,
) -> NightSheet:
    """The sheet of a plan: everything that a person, a picture or a phone asks of it.

    The relief takes constructions of its own; a quick sheet of one construction does without. Of a night that is under
    way `left` is what is left to plan: the bound and the relief speak of that.
    """
    tonight, problem = built.tonight, built.problem
    placed = placed_runs(problem, plan)
    loads = AllLoads(problem, placed)
    runs = _runs(built, placed, reasons(built, placed, loads))
    shortfalls = (*built.shortfalls, *LeftOut(built, placed, loads).shortfalls(plan))
    finish = finish_of(problem, plan)
    return NightSheet(
        site=tonight.document.site.id,
        night=tonight.night.date.isoformat(),
        starts=tonight.night.starts,
        ends=tonight.night.ends,
        starts_local=tonight.clock.iso(tonight.night.starts),
        ends_local=tonight.clock.iso(tonight.night.ends),
        zone=tonight.clock.name,
        zone_data=tonight.clock.data_version,
        engine=ENGINE_VERSION,
        runs=runs,
        shortfalls=shortfalls,
        draws=draws(built, placed, loads),
        closed=built.closed,
        finish=None if finish is None else tonight.instant(finish),
        bound=held(*(left or (built, plan)), with_relief=with_relief),
        notices=(*built.notices, *draw_notices(built, loads)),
        volume_due_l=litres(built.due_ml),
        volume_l=litres(volume_of(problem, plan)),
        moved_pct=None if before is None else moved_pct(before, tonight.night.starts, runs),
        order=plan.order,
        constructions=plan.constructions,
    )


def _runs(built: Built, placed: Sequence[Placed], whys: Sequence[Why]) -> tuple[Run, ...]:
    local = _Local(built)
    return tuple(_run(built, one, why, local) for one, why in zip(placed, whys, strict=True))


def _run(built: Built, one: Placed, why: Why, local: _Local) -> Run:
    due, chain = built.dues[one.chain], built.problem.chains[one.chain]
    start, end = built.tonight.instant(one.start), built.tonight.instant(one.end)
    return Run(
        turn=due.key,
        station=due.station.id,
        program=due.program.id if due.program else None,
        supply=due.station.supply,
        controller=due.station.controller,
        cycle=one.cycle + 1,
        cycles=len(due.cycles),
        start=start,
        end=end,
        start_local=local.iso(start),
        end_local=local.iso(end),
        flow_lpm=litres(chain.flow),
        volume_l=litres(millilitres(chain.flow, one.end - one.start)),
        why=why.decides,
        ladder=why.ladder,
    )


class _Local:
    """Local times of a night's instants. Between two changes of the clock the wall runs with real time."""

    def __init__(self, built: Built) -> None:
        tonight = built.tonight
        changes = tonight.clock.changes(tonight.night.starts, tonight.night.ends + 1)
        self._since = [int(tonight.night.starts), *(change.at for change in changes)]
        self._walls = [tonight.clock.wall(since) for since in self._since]
        self._offsets = [tonight.clock.iso(since)[len("YYYY-MM-DDTHH:MM:SS") :] for since in self._since]

    def iso(self, instant: int) -> str:
        """What `SiteClock.iso` says of an instant of the night."""
        part = bisect_right(self._since, instant) - 1
        wall = self._walls[part] + timedelta(seconds=instant - self._since[part])
        return wall.isoformat() + self._offsets[part]
