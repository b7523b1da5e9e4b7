"""The work shown: from weather to minutes for a turn, and a hydrozone's season day by day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from ...document.document import Document
from ...message import Message
from ..balance import Balance
from ..coefficients import coefficient_on
from ..ladder import ReferenceDay
from ..trace import Figure, balance_figures, reference_figures, run_figures
from .nights import Start, Watered, needs_on
from .weather import day_weather_on, site_days


@dataclass(frozen=True, slots=True)
class TurnWork:
    """All numbers behind one turn's run time on a night, in the order in which they follow from each other."""

    turn: str
    night: date
    figures: tuple[Figure, ...]
    decision: Message | None
    messages: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class Season:
    """A hydrozone's balance, its days' references beside it (each with its rung and flags), and what is to be said."""

    hydrozone: str
    kept: Balance
    references: tuple[ReferenceDay, ...]
    messages: tuple[Message, ...]


def turn_work(
    document: Document,
    turn: str,
    night: date,
    watered: Watered | None = None,
    starts: Mapping[str, Start] | None = None,
) -> TurnWork | None:
    """The work behind a turn by need; None where the turn is set by hand. Without figures something is missing."""
    record = document.turns[turn]
    zone = document.stations[record.station].hydrozone
    if record.mode != "need":
        return None
    needs = needs_on(document, night, watered, starts=starts, only=zone)
    found = needs.zones.get(zone or "")
    if found is None or found.planting is None or found.kept is None or found.need is None:
        return TurnWork(turn, night, (), None, needs.messages if found is None else found.messages)
    day = day_weather_on(document, night) if found.kept.days else None
    figures = [*(reference_figures(day) if day else ())]
    place = len(found.kept.days) - 1
    if place >= 0:
        figures.extend(balance_figures(found.kept, place, coefficient_on(found.planting.curve, night)))
    run = next((run for run in found.need.runs if run.rate.station == record.station), None)
    if run is not None:
        figures.extend(run_figures(found.need.decision, run))
    odd = (*(flag.message for flag in day.flags), *day.messages) if day else ()
    messages = (*found.messages, *odd, *(run.messages if run else ()))
    return TurnWork(turn, night, tuple(figures), found.need.decision.message, messages)


def season(
    document: Document,
    hydrozone: str,
    night: date,
    watered: Watered | None = None,
    starts: Mapping[str, Start] | None = None,
) -> Season | None:
    """A hydrozone's days from where its balance begins up to a night; None where no balance can be kept."""
    found = needs_on(document, night, watered, starts=starts, only=hydrozone, all_zones=True).zones.get(hydrozone)
    if found is None or found.kept is None:
        return None
    days = site_days(document, found.kept.first, found.kept.after - timedelta(days=1)) if found.kept.days else None
    return Season(hydrozone, found.kept, days.references if days else (), found.messages)
