"""The way in: a night sheet, what happened since it was made, and a moment; out comes the rest of the night."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from ..clock.nights import night_on
from ..clock.zones import clock_of
from ..document.document import Document
from ..plan.build import build
from ..plan.night import MOST_OF_A_GLANCE
from ..plan.sheet import NightSheet
from ..plan.solve import default_effort
from ..plan.water import millilitres
from .ahead import Ahead, runs_of
from .clock import Kept, keep, nothing_missed
from .effect import Effect, effect_of
from .happened import Happened, as_planned
from .left import Left, left_at
from .recover import Progress, by_the_clock, recovered
from .sound import closing
from .whole import told, whole_sheet


class Way(StrEnum):
    """What becomes of water that was missed."""

    KEEP = "keep"  # to the clock: what was planned later runs as planned, what was missed is lost
    RECOVER = "recover"  # what was missed is made up for by rank and need, within windows, limits and closures


@dataclass(frozen=True, slots=True)
class Rest:
    """The new sheet of the night, and what it changes."""

    sheet: NightSheet
    effect: Effect


def rest_of_night(
    document: Document,
    before: NightSheet,
    now: int,
    happened: Happened | None = None,
    *,
    way: Way = Way.RECOVER,
    effort: int | None = None,
    on_construction: Callable[[int], None] | None = None,
) -> Rest:
    """The night of the sheet `before`, worked out anew from the instant `now` on. Nothing is placed before it.

    With `happened`, the catch-up after an interruption: what ran counts as it ran, a half-run cycle by what was
    delivered; open runs go on. The outages in it, past and to come, are closures of what they concern. Where nothing
    was missed and nothing stands in the way, `before` comes back as it is.

    Without, the rest of a night after an edit: everything up to now counts as run as `before` had it, and `document`
    may be another than `before` was made from. A cycle that ran has run, and a turn that is over is over: an edit of
    its run time counts from the next night on. What fell short before is tried again.

    A turn that is due no more is closed now, and what ran of it is left to the journal.

    `effort` counts constructions; the same effort gives the same sheet on every machine. Raises `ClockFault` where the
    site's clock is none, ValueError where the sheet's date is none.
    """
    left = left_of_night(document, before, now, happened)
    kept = keep(left)
    clock = by_the_clock(left, kept)
    if not left.edited and nothing_missed(left, kept):
        sheet = before if _as_before(left, clock) else whole_sheet(left, clock, 1, recovers=True, with_relief=False)
    elif way is Way.KEEP:
        sheet = told(left, whole_sheet(left, clock, 1, recovers=False, with_relief=False), recovers=False)
    else:
        sheet = _recovering(left, kept, effort, on_construction)
    return Rest(sheet, effect_of(document, before, _millilitres(left, clock), sheet, now))


def left_of_night(document: Document, before: NightSheet, now: int, happened: Happened | None) -> Left:
    """What is left of the night at the instant `now`, by what happened or else as the sheet has it."""
    clock = clock_of(document.site)
    so_far = as_planned(before, now) if happened is None else happened
    ran = {one.turn for one in so_far.ran}
    built = build(document, night_on(clock, date.fromisoformat(before.night)), clock, ran)
    return closing(left_at(built, before, so_far, built.tonight.second(now), edited=happened is None))


def _recovering(left: Left, kept: Kept, effort: int | None, on_construction: Progress | None) -> NightSheet:
    effort = full_effort(by_the_clock(left, kept)) if effort is None else effort
    found = recovered(left, kept, effort, on_construction or (lambda _count: None))
    relief = effort > MOST_OF_A_GLANCE
    sheet = whole_sheet(found.left, found.ahead, found.constructions, recovers=True, with_relief=relief)
    return sheet if left.edited else told(left, sheet, recovers=True)


def full_effort(clock: Ahead) -> int:
    """Constructions for a good rest of the night: twice those of a night as large, as two ways and more are tried."""
    return 2 * default_effort(clock.problem)


def _as_before(left: Left, clock: Ahead) -> bool:
    """Whether the night has run to the second as the sheet planned it, and goes on so."""
    second = left.built.tonight.second
    planned = sorted((run.turn, second(run.start), run.end - run.start) for run in left.before.runs)
    return planned == sorted(
        (left.chains[c].key, *run) for c in range(len(left.chains)) for run in runs_of(left, clock, c)
    )


def _millilitres(left: Left, ahead: Ahead) -> int:
    """What the whole night brings, each run rounded by itself as in a sheet."""
    return sum(
        millilitres(chain.flow, seconds)
        for c, chain in enumerate(left.chains)
        for _, seconds in runs_of(left, ahead, c)
    )
