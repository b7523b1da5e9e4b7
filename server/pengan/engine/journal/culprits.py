"""Which station, pipe or cabinet may be behind a finding, how sure each is, and what to run to tell them apart.

Each suspicion foretells how much more or less a meter shows in each steady stretch of time since the fault began: a
break below a valve only while that valve is open, a stuck valve just its flow and only while it should be closed, a
clogged filter a share of everything. Suspicions are weighed by how well they foretell what was read (normal errors,
Bayes' rule; an unknown size is averaged over) and by how likely each was to begin just then (`suspicions`). The
figures are common practice, no source. Flows are mL/min inside.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import exp, log, pi
from typing import TYPE_CHECKING

from ..plan.water import litres
from .case import Case
from .finding import Cause, Culprit
from .stretches import Stretch, stretches_of
from .suspicions import Suspicion, suspicions

if TYPE_CHECKING:
    from .watch import Watch

LEAST_SURE, MOST_CULPRITS = 0.01, 6
SURE_ENOUGH = 0.95
"""Nothing more needs to be run to be surer than this."""
OVER = 1.2
"""A size may come out by so much too large."""
IMPOSSIBLE = -1e6


def culprits_of(watch: Watch, case: Case) -> tuple[Culprit, ...]:
    """The likely culprits of a case about water, the surest first."""
    stretches = stretches_of(watch, case)
    sign = 1 if case.is_excess else -1
    weighed = [(_weight(one, stretches, sign), one) for one in suspicions(watch, case, stretches)]
    top = max((weight for (weight, _), _ in weighed), default=0.0)
    total = sum(exp(weight - top) for (weight, _), _ in weighed)
    found = [_culprit(one, exp(weight - top) / total, size) for (weight, size), one in weighed]
    found = [one for one in found if one.sure >= LEAST_SURE]
    return tuple(sorted(found, key=lambda one: -one.sure)[:MOST_CULPRITS])


def trial(culprits: Sequence[Culprit]) -> tuple[str, ...]:
    """The station or the pair whose running alone tells most: the fault would show with a chance nearest to one half.

    Nothing where one culprit is as good as sure, or where no station's running would tell.
    """
    names = sorted({one.station for one in culprits if one.station is not None})
    if not names or culprits[0].sure >= SURE_ENOUGH:
        return ()
    groups = [*((name,) for name in names), *combinations(names, 2)]
    best = min(groups, key=lambda group: (abs(_shows(culprits, group) - 0.5), len(group), group))
    return best if 1 - SURE_ENOUGH < _shows(culprits, best) < SURE_ENOUGH else ()


def _shows(culprits: Iterable[Culprit], running: Sequence[str]) -> float:
    """How likely the fault shows while just these stations run: a pipe's always does, a stuck valve's while closed."""
    seen = 0.0
    for one in culprits:
        among = one.station in running
        seen += one.sure * (one.station is None or among != (one.cause is Cause.STUCK_OPEN))
    return round(seen, 6)


def _culprit(one: Suspicion, sure: float, size: float) -> Culprit:
    station, supply, controller = one.name
    return Culprit(one.cause, round(sure, 3), litres(round(abs(size))), station, supply, controller)


def _weight(one: Suspicion, stretches: Sequence[Stretch], sign: int) -> tuple[float, float]:
    """The logarithm of how likely a suspicion makes what was read, and its size."""
    own, mixed, squares = 0.0, 0.0, 0.0
    for factor, stretch in zip(one.factors, stretches, strict=True):
        own += factor * factor / stretch.variance
        mixed += factor * stretch.off / stretch.variance
        squares += stretch.off * stretch.off / stretch.variance
    if one.size is None:
        fit, size = _of_any_size(own, mixed, sign, one.most)
    else:
        tight = 1 / one.within**2
        size = (mixed + one.size * tight) / (own + tight)
        fit = (size * size * (own + tight) - one.size**2 * tight - log((own + tight) / tight)) / 2
    return fit - squares / 2 + log(one.weight), size * max(map(abs, one.factors))


def _of_any_size(own: float, mixed: float, sign: int, most: float) -> tuple[float, float]:
    size = mixed / own
    if not 0 < size * sign <= OVER * most:
        return IMPOSSIBLE, size
    return mixed * mixed / own / 2 + log(2 * pi / own) / 2 - log(most), size
