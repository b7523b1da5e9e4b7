"""The seasonal percentage of turns set by hand for the peak of the year: recent need over peak need.

Common practice, no source. A suggestion is an edit that a person accepts; a program may accept it by itself within
its own limits. Either way it is an edit in the history.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from ..message import Message, Param, saying

SUGGESTED = saying(
    "seasonal.suggested",
    "Program {program}: {to_pct} in place of {from_pct}. The last days needed {recent_mm} a day, the peak {peak_mm}.",
)
LIMITED = saying(
    "seasonal.limited",
    "Program {program}: {to_pct} in place of {from_pct}, which is its limit; need alone would say {need_pct}.",
)
NO_PEAK = saying("seasonal.no_peak", "Program {program}: without the need of the peak month nothing can be suggested.")
NO_RECENT = saying(
    "seasonal.no_recent", "Program {program}: too few of the last days have weather; nothing is suggested."
)


@dataclass(frozen=True, slots=True)
class Limits:
    """Between which percentages a program may move, in what steps, and how much by itself at once.

    `by_itself_pct` 0: a person accepts everything.
    """

    least_pct: int = 0
    most_pct: int = 150
    step_pct: int = 5
    by_itself_pct: int = 0


@dataclass(frozen=True, slots=True)
class Suggestion:
    """An edit of a program's `seasonal_pct`; `by_itself` says the program may accept it without a person."""

    program: str
    from_pct: int
    to_pct: int
    by_itself: bool
    message: Message


def suggest(
    program: str,
    now_pct: int,
    recent_mm: Sequence[float | None],
    peak_mm: float | None,
    limits: Limits,
    least_days: int = 5,
) -> tuple[Suggestion | None, Message | None]:
    """The suggestion for a program, or why there is none. (None, None): the percentage is right as it stands.

    `recent_mm` is need (or reference) a day over the last days, None where unknown; `peak_mm` the same at the peak.
    """
    known = [mm for mm in recent_mm if mm is not None]
    if peak_mm is None or peak_mm <= 0:
        return None, NO_PEAK(program=program)
    if len(known) < least_days:
        return None, NO_RECENT(program=program)
    recent = fsum(known) / len(known)
    need = 100 * recent / peak_mm
    stepped = limits.step_pct * int(need / limits.step_pct + 0.5)
    to = min(limits.most_pct, max(limits.least_pct, stepped))
    if to == now_pct:
        return None, None
    told: dict[str, Param] = {"program": program, "to_pct": to, "from_pct": now_pct}
    said = SUGGESTED(**told, recent_mm=recent, peak_mm=peak_mm) if to == stepped else LIMITED(**told, need_pct=need)
    return Suggestion(program, now_pct, to, abs(to - now_pct) <= limits.by_itself_pct, said), None
