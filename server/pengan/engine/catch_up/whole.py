"""The sheet of a night that is under way: what ran, as it ran, and the rest of it as it is planned now."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace

from ..message import saying
from ..plan.build import Built
from ..plan.dues import Due
from ..plan.night import sheet_of
from ..plan.problem import Chain, Plan
from ..plan.sheet import NightSheet, Run, Rung, Shortfall
from ..plan.shortfalls import shortfall
from ..plan.solve import MOVED_S
from . import lost
from .ahead import Ahead, runs_of
from .effect import moved_pct
from .interrupted import FROM_NOW
from .left import Left
from .served import WORTH_S, fitting

RAN = saying("why.ran", "It ran then.")
MADE_UP = saying("why.made_up", "Makes up for what was missed; worked out anew at {from_at}.")
WORKED_OUT = saying(
    "notice.worked_out",
    "At {from_at} the rest of this night was worked out anew: what was missed is made up for, as far as it fits.",
)
KEEPS_TO_CLOCK = saying(
    "notice.keeps_to_clock",
    "At {from_at} the rest of this night was worked out anew: it keeps to the clock, and what was missed is lost.",
)
STRANGER = saying("notice.stranger", "{station} was open at {start_at} though nothing of it was due then.")
CAUTION = saying(
    "notice.before_water_runs",
    "Caution: before water runs again, make sure that nobody works on pipes, heads or cabinets or stands in the spray, "
    "and that the fault is mended. Follow local codes and licensed practice.",
)


@dataclass(frozen=True, slots=True)
class _Turn:
    """One turn of the whole night: its due and its chain as they came about, where its cycles are, and what is lost."""

    due: Due
    chain: Chain
    starts: tuple[int | None, ...]
    short: Shortfall | None


def whole_sheet(left: Left, ahead: Ahead, constructions: int, *, recovers: bool, with_relief: bool) -> NightSheet:
    """The sheet of the whole night. `recovers`: what was missed was looked for a place; else the clock was kept."""
    turns = [_turn(left, ahead, c, recovers=recovers) for c in range(len(left.turns))]
    built = replace(
        left.built,
        problem=left.problem([turn.chain for turn in turns]),
        dues=tuple(turn.due for turn in turns),
        calendars=left.calendars,
        shortfalls=(*left.built.shortfalls, *(turn.short for turn in turns if turn.short)),
    )
    order = tuple(key for key in ahead.plan.order if not key.endswith("/going"))
    plan = Plan(tuple(turn.starts for turn in turns), order, constructions)
    rest: tuple[Built, Plan] = (replace(left.built, problem=ahead.problem), ahead.plan)
    sheet = sheet_of(built, plan, left.before, with_relief=with_relief and ahead.solved, left=rest)
    share = moved_pct(left.before, sheet, left.built.tonight.instant(left.now))
    return replace(sheet, runs=_with_reasons(left, sheet.runs), moved_pct=share)


def told(left: Left, sheet: NightSheet, *, recovers: bool) -> NightSheet:
    """The sheet of an interrupted night says so, with the caution that belongs to water that runs again."""
    said = WORKED_OUT if recovers else KEEPS_TO_CLOCK
    strangers = (STRANGER(station=one.station, start_at=one.start) for one in left.happened.strangers)
    at = left.built.tonight.instant(left.now)
    return replace(sheet, notices=(CAUTION(), said(from_at=at), *strangers, *sheet.notices))


def _turn(left: Left, ahead: Ahead, c: int, *, recovers: bool) -> _Turn:
    chain, due, runs = left.chains[c], left.built.dues[c], runs_of(left, ahead, c)
    missing, placed = ahead.missing[c], tuple(seconds for _, seconds in runs)
    ready = max(left.ready[c], runs[-1][0] + runs[-1][1] + chain.soak) if runs else left.ready[c]
    fit = fitting(missing, ready, chain, left.calendars[c].spans) if recovers else 0
    came = replace(due, cycles=(*placed, *missing, *due.cycles[len(chain.cycles) :]))
    short = None
    if missing[fit:]:
        why = lost.no_time_left(left, missing[fit]) if recovers else lost.by_the_clock(left, c)
        short = shortfall(came, len(placed) + fit, why, len(placed) + len(missing))
    fixed = chain.fixed if not runs or runs[0][0] == chain.fixed else None
    rest = left.chain(c, (*placed, *missing[:fit]), left.ready[c], fixed)
    return _Turn(came, rest, (*(start for start, _ in runs), *[None] * fit), short)


def _with_reasons(left: Left, runs: tuple[Run, ...]) -> tuple[Run, ...]:
    """Runs that are where the sheet had them keep its reasons; those that ran otherwise just ran."""
    now = left.built.tonight.instant(left.now)
    earlier, later = _by_turn(left.before.runs), _by_turn(runs)
    more = {turn for turn, mine in later.items() if _after(mine, now) >= _after(earlier[turn], now) + WORTH_S}
    return tuple(_reasoned(run, earlier[run.turn], now, not left.edited and run.turn in more) for run in runs)


def _by_turn(runs: Iterable[Run]) -> defaultdict[str, list[Run]]:
    found: defaultdict[str, list[Run]] = defaultdict(list)
    for run in runs:
        found[run.turn].append(run)
    return found


def _after(runs: Iterable[Run], now: int) -> int:
    return sum(max(0, run.end - max(run.start, now)) for run in runs)


def _reasoned(run: Run, earlier: list[Run], now: int, makes_up: bool) -> Run:
    if run.start < now:
        was = next((one for one in earlier if abs(one.start - run.start) < WORTH_S), None)
        return replace(run, why=was.why, ladder=was.ladder) if was else _ran(run)
    was = next((one for one in earlier if one.start == run.start and one.end == run.end), None)
    if was:
        return replace(run, why=was.why, ladder=was.ladder)
    near = any(abs(one.start - run.start) <= MOVED_S for one in earlier)
    return _as_made_up(run, now) if makes_up and not near else run


def _ran(run: Run) -> Run:
    why = RAN()
    return replace(run, why=why, ladder=(Rung(why, run.start),))


def _as_made_up(run: Run, now: int) -> Run:
    """The same run, its rung of the new beginning saying that it makes up for something."""
    ladder = tuple(
        replace(rung, why=MADE_UP(from_at=now)) if rung.why.code == FROM_NOW.code else rung for rung in run.ladder
    )
    return replace(run, why=ladder[-1].why, ladder=ladder)
