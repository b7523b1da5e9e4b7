"""How many millimetres a hydrozone gets tonight, or on which night next.

Source: FAO Irrigation and Drainage Paper 56, p. 171: water before or when the readily available water is used up, and
no more than the depletion. The drought rule, percent of need by priority, is common practice, no source.

A night named N runs from noon of N to noon of N+1; its watering is counted on the day N+1 (see `balance`). The balance
reaches up to the day N or earlier; `ahead` are the days expected after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

from ..message import Message, Param, saying, saying_plural
from .balance import Balance
from .soil import fraction_on

TONIGHT = saying(
    "need.tonight",
    "{hydrozone}: {depth_mm} tonight. The soil lacks {depletion_mm}; plants take the first {ready_mm} with ease.",
)
TONIGHT_SHARE = saying(
    "need.tonight_share",
    "{hydrozone}: {depth_mm} tonight, {share_pct} of its need under the drought rule. The soil lacks {depletion_mm}.",
)
LATER = saying("need.later", "{hydrozone}: nothing tonight; about {depth_mm} on the night of {night_date}.")
NOT_IN_SIGHT = saying_plural(
    "need.not_in_sight",
    "{hydrozone}: nothing tonight, nor in the {days_count} day looked ahead.",
    "{hydrozone}: nothing tonight, nor in the {days_count} days looked ahead.",
    count="days_count",
)
NOTHING_ALLOWED = saying("need.drought_off", "{hydrozone}: nothing, as the drought rule gives its priority no water.")
NO_DAYS_AHEAD = saying(
    "need.no_days_ahead",
    "{hydrozone}: nothing is known or expected of the days up to {night_date}; nothing is decided.",
)

ONE_DAY = timedelta(days=1)
MOST_DAYS = 400
"""How far ahead is looked at most."""


@dataclass(frozen=True, slots=True)
class Drought:
    """Percent of need by priority: 1 is served best. A priority that is not listed gets everything."""

    share_pct: Mapping[int, float]


@dataclass(frozen=True, slots=True)
class Manner:
    """How a hydrozone's water is decided.

    `kind`: `deficit` waters when waiting for the next allowed night would use up the readily available water; `days`
    waters on every allowed night. `trigger` is the share of readily available water that may be used (1: all);
    `leave_mm` is left empty for rain; a depth below `least_mm` is not worth opening a valve for; `most_mm` caps a
    night.
    """

    kind: str = "deficit"
    trigger: float = 1.0
    leave_mm: float = 0.0
    least_mm: float = 0.0
    most_mm: float | None = None
    priority: int = 5


class Expected(NamedTuple):
    """A day that has not come: its demand, and the effective rain counted on (0 unless somebody trusts a forecast)."""

    demand_mm: float
    effective_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Decision:
    """What one hydrozone gets: `tonight_mm` (net, at the roots), else the next night and its expected depth."""

    hydrozone: str
    night: date
    tonight_mm: float
    depletion_mm: float
    ready_mm: float
    share_pct: float
    message: Message
    next_night: date | None = None
    next_mm: float | None = None


class _Eve(NamedTuple):
    """How things stand before a night: depletion, need since the last watering, what may be used with ease.

    `after_mm` is the depletion a day later if the night brings no water.
    """

    night: date
    depletion_mm: float
    after_mm: float
    since_mm: float
    ready_mm: float


def decide(
    hydrozone: str,
    kept: Balance,
    night: date,
    ahead: Sequence[Expected],
    manner: Manner,
    *,
    drought: Drought | None = None,
    allowed: Callable[[date], bool] = lambda _night: True,
) -> Decision:
    """What to do on a night. `ahead` begins with the first day that the balance does not have.

    `allowed` says on which nights watering may happen at all (day rules, closures).
    """
    share = drought.share_pct.get(manner.priority, 100.0) if drought else 100.0
    eves = list(_eves(kept, night, ahead[:MOST_DAYS], manner))
    if not eves:
        said = NO_DAYS_AHEAD(hydrozone=hydrozone, night_date=night.isoformat())
        return Decision(hydrozone, night, 0.0, kept.depletion_mm, 0.0, share, said)
    first = eves[0]
    if share <= 0:
        return _nothing(hydrozone, first, share, NOTHING_ALLOWED(hydrozone=hydrozone))
    for place, eve in enumerate(eves):
        depth = _depth(eve, manner, share)
        if depth > 0 and allowed(eve.night) and _wanted(eves, place, manner, allowed):
            return _found(hydrozone, first, eve, depth, share)
    return _nothing(hydrozone, first, share, NOT_IN_SIGHT(hydrozone=hydrozone, days_count=len(eves)))


def need_since_watering(kept: Balance) -> float:
    """What plants would have taken unstressed, less effective rain, since water was last given; never below nothing."""
    need = 0.0
    days = kept.days
    for place in range(len(days) - 1, -1, -1):
        need += days.demand[place] - days.rain.effective[place]
        if days.watering[place].applied_mm > 0:
            return max(0.0, need)
    return max(0.0, need + kept.start_mm)


def _eves(kept: Balance, night: date, ahead: Sequence[Expected], manner: Manner) -> Iterator[_Eve]:
    """Every night from tonight on whose next day is expected, with no water given: plants unstressed, to be safe."""
    zone, depletion, since = kept.zone, kept.depletion_mm, need_since_watering(kept)
    eve = kept.after - ONE_DAY
    for demand, effective in ahead:
        change = demand - effective
        after = min(zone.total_mm, max(0.0, depletion + change))
        if eve >= night:
            ready = manner.trigger * (fraction_on(zone, demand) * zone.total_mm)
            yield _Eve(eve, depletion, after, since, ready)
        depletion, since, eve = after, max(0.0, since + change), eve + ONE_DAY


def _depth(eve: _Eve, manner: Manner, share: float) -> float:
    """The night's depth: the depletion less the room left for rain; in a drought the share of need since last time."""
    room = max(0.0, eve.depletion_mm - manner.leave_mm)
    depth = room if share >= 100 else min(room, eve.since_mm * share / 100)
    if depth < manner.least_mm:
        return 0.0
    return depth if manner.most_mm is None else min(depth, manner.most_mm)


def _wanted(eves: Sequence[_Eve], place: int, manner: Manner, allowed: Callable[[date], bool]) -> bool:
    """Whether the night is worth it: on fixed days always; by deficit, if waiting would use up what comes with ease."""
    if manner.kind == "days":
        return True
    ready = eves[place].ready_mm
    for number in range(place, len(eves)):
        if number > place and allowed(eves[number].night):
            return False
        if eves[number].after_mm > ready:
            return True
    return False


def _found(hydrozone: str, first: _Eve, eve: _Eve, depth: float, share: float) -> Decision:
    if eve is not first:
        said = LATER(hydrozone=hydrozone, depth_mm=depth, night_date=eve.night.isoformat())
        return Decision(
            hydrozone, first.night, 0.0, first.depletion_mm, first.ready_mm, share, said, eve.night, depth
        )  # fmt: skip
    known: dict[str, Param] = {"hydrozone": hydrozone, "depth_mm": depth, "depletion_mm": eve.depletion_mm}
    said = TONIGHT(**known, ready_mm=eve.ready_mm) if share >= 100 else TONIGHT_SHARE(**known, share_pct=share)
    return Decision(hydrozone, eve.night, depth, eve.depletion_mm, eve.ready_mm, share, said)


def _nothing(hydrozone: str, first: _Eve, share: float, said: Message) -> Decision:
    return Decision(hydrozone, first.night, 0.0, first.depletion_mm, first.ready_mm, share, said)
