"""The water need as data, one shape for whoever shows it: the server's answers and the phone's own.

Amounts are in base units. What is said goes through `said`, which puts a message into the shape its reader takes: the
server adds the sentence in the reader's language, the phone leaves the code and its parameters as they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta

from ...message import Message
from ..decide import Decision
from ..ladder import ReferenceDay
from ..minutes import RunTime
from ..seasonal import Suggestion
from ..trace import SEASON_COLUMNS, Figure, season_rows
from .nights import SiteNeeds, ZoneNeed
from .work import Season, TurnWork

Shape = dict[str, object]
Says = Callable[[Message], Shape]


def as_code(message: Message) -> Shape:
    """A message for a reader who has the sentences."""
    return message.as_json()


def night_shape(needs: SiteNeeds, weather: ReferenceDay | None, said: Says = as_code) -> Shape:
    """A night of the whole site. `weather` is that of the night's own day; None where nothing is known of it."""
    return {
        "night": needs.night.isoformat(),
        "weather": None if weather is None else _weather(weather, said),
        "hydrozones": [_zone(zone, said) for zone in needs.zones.values()],
        "messages": _each_once(needs.messages, said),
    }


def _weather(day: ReferenceDay, said: Says) -> Shape:
    return {
        "day": day.day.isoformat(),
        "reference_mm": day.et_mm,
        "rung": day.rung,
        "row": day.row,
        "flags": _each_once((*(flag.message for flag in day.flags), *day.messages), said),
    }


def _zone(zone: ZoneNeed, said: Says) -> Shape:
    return {
        "hydrozone": zone.hydrozone,
        "by_hand": zone.by_hand,
        "total_mm": zone.planting and zone.planting.zone.total_mm,
        **_decided(zone.need.decision if zone.need else None, said),
        "stations": [_station(run, said) for run in zone.need.runs] if zone.need else [],
        "messages": _each_once(zone.messages, said),
    }


def _decided(decision: Decision | None, said: Says) -> Shape:
    return {
        "depletion_mm": decision and decision.depletion_mm,
        "ready_mm": decision and decision.ready_mm,
        "tonight_mm": decision and decision.tonight_mm,
        "share_pct": decision and decision.share_pct,
        "next_night": decision and decision.next_night and decision.next_night.isoformat(),
        "next_mm": decision and decision.next_mm,
        "decision": decision and said(decision.message),
    }


def _station(run: RunTime, said: Says) -> Shape:
    return {
        "station": run.rate.station,
        "net_mm": run.net_mm,
        "gross_mm": run.gross_mm,
        "rate_mm_h": run.rate.mm_h,
        "rate_from": run.rate.origin,
        "uniformity": run.rate.uniformity_lq,
        "multiplier": run.multiplier,
        "run_s": run.wanted.run_s,
        "cycles": run.wanted.cycles,
        "soak_s": run.wanted.soak_s,
        "messages": _each_once(run.messages, said),
    }


def work_shape(work: TurnWork, said: Says = as_code) -> Shape:
    """The work behind a turn."""
    return {
        "turn": work.turn,
        "night": work.night.isoformat(),
        "decision": work.decision and said(work.decision),
        "figures": [figure_shape(figure) for figure in work.figures],
        "messages": _each_once(work.messages, said),
    }


def figure_shape(figure: Figure) -> Shape:
    """One number of the work."""
    return {
        "key": figure.key,
        "value": figure.value,
        "unit": figure.unit,
        "inputs": list(figure.inputs),
        "source": figure.source,
        "rung": figure.rung,
        "row": figure.row,
    }


def season_shape(season: Season, said: Says = as_code) -> Shape:
    """A hydrozone's days."""
    return {
        "hydrozone": season.hydrozone,
        "start_mm": season.kept.start_mm,
        "days": _days(season, said),
        "messages": _each_once(season.messages, said),
    }


def _days(season: Season, said: Says) -> list[Shape]:
    references = {one.day: one for one in season.references}
    days: list[Shape] = []
    for number, row in enumerate(season_rows(season.kept)[1:]):
        reference = references[season.kept.first + timedelta(days=number)]
        depths = {name: float(depth) for name, depth in zip(SEASON_COLUMNS[1:], row[1:], strict=True)}
        own = {"day": row[0], "reference_mm": reference.et_mm, "rung": reference.rung, "row": reference.row}
        days.append({**own, **depths, "flags": _each_once((flag.message for flag in reference.flags), said)})
    return days


def _each_once(messages: Iterable[Message], said: Says) -> list[Shape]:
    shown: list[Shape] = []
    for message in messages:
        if (told := said(message)) not in shown:
            shown.append(told)
    return shown


def suggestions_shape(
    night: date, found: tuple[Sequence[Suggestion], Sequence[Message]], said: Says = as_code
) -> Shape:
    """What programs' seasonal percentages should be, and why nothing can be said of others."""
    suggestions, messages = found
    return {
        "night": night.isoformat(),
        "suggestions": [_suggestion(one, said) for one in suggestions],
        "messages": _each_once(messages, said),
    }


def _suggestion(one: Suggestion, said: Says) -> Shape:
    return {
        "program": one.program,
        "from_pct": one.from_pct,
        "to_pct": one.to_pct,
        "by_itself": one.by_itself,
        "message": said(one.message),
    }
