"""The water need as it stands in answers: figures in base units, sentences in the reader's language."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import timedelta

from pengan.engine.message import Message
from pengan.engine.need.minutes import RunTime
from pengan.engine.need.seasonal import Suggestion
from pengan.engine.need.site.nights import SiteNeeds, ZoneNeed
from pengan.engine.need.site.work import Season, TurnWork
from pengan.engine.need.tonight import CAUTION
from pengan.engine.need.trace import SEASON_COLUMNS, Figure, as_rows, season_rows
from pengan.words.reader import Reader
from pengan.words.say import say

from .operations import Site, YearBudget

Shown = dict[str, object]


class Writer:
    """Puts what is said into the reader's language, with the site's names."""

    def __init__(self, reader: Reader, site: Site | None = None) -> None:
        self.reader = reader
        self.names = None if site is None else site.names

    @property
    def caution(self) -> str:
        """What stands beside every figure."""
        return say(CAUTION(), self.reader)

    def said(self, message: Message) -> Shown:
        """One message."""
        return {**message.as_json(), "detail": say(message, self.reader, self.names)}

    def all(self, messages: Iterable[Message]) -> list[Shown]:
        """Messages, each once."""
        shown: list[Shown] = []
        for message in messages:
            if (said := self.said(message)) not in shown:
                shown.append(said)
        return shown


def night_shown(needs: SiteNeeds, write: Writer) -> Shown:
    """A night of the whole site."""
    return {
        "night": needs.night.isoformat(),
        "hydrozones": [_zone(zone, write) for zone in needs.zones.values()],
        "messages": write.all(needs.messages),
        "caution": write.caution,
    }


def _zone(zone: ZoneNeed, write: Writer) -> Shown:
    decision = zone.need.decision if zone.need else None
    return {
        "hydrozone": zone.hydrozone,
        "depletion_mm": decision and decision.depletion_mm,
        "ready_mm": decision and decision.ready_mm,
        "total_mm": zone.planting and zone.planting.zone.total_mm,
        "tonight_mm": decision and decision.tonight_mm,
        "share_pct": decision and decision.share_pct,
        "next_night": decision and decision.next_night and decision.next_night.isoformat(),
        "next_mm": decision and decision.next_mm,
        "decision": decision and write.said(decision.message),
        "stations": [_station(run, write) for run in zone.need.runs] if zone.need else [],
        "messages": write.all(zone.messages),
    }


def _station(run: RunTime, write: Writer) -> Shown:
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
        "messages": write.all(run.messages),
    }


def work_shown(work: TurnWork, write: Writer) -> Shown:
    """The work behind a turn."""
    return {
        "turn": work.turn,
        "night": work.night.isoformat(),
        "decision": work.decision and write.said(work.decision),
        "figures": [_figure(figure, write) for figure in work.figures],
        "messages": write.all(work.messages),
        "caution": write.caution,
    }


def _figure(figure: Figure, write: Writer) -> Shown:
    return {
        "key": figure.key,
        "name": say(figure.name, write.reader),
        "value": figure.value,
        "unit": figure.unit,
        "inputs": list(figure.inputs),
        "source": figure.source,
        "rung": figure.rung,
        "row": figure.row,
    }


def season_shown(season: Season, write: Writer) -> Shown:
    """A hydrozone's days."""
    return {
        "hydrozone": season.hydrozone,
        "start_mm": season.kept.start_mm,
        "days": _days(season, write),
        "messages": write.all(season.messages),
        "caution": write.caution,
    }


def _days(season: Season, write: Writer) -> list[Shown]:
    references = {one.day: one for one in season.references}
    days: list[Shown] = []
    for number, row in enumerate(season_rows(season.kept)[1:]):
        reference = references[season.kept.first + timedelta(days=number)]
        depths = {name: float(depth) for name, depth in zip(SEASON_COLUMNS[1:], row[1:], strict=True)}
        own = {"day": row[0], "reference_mm": reference.et_mm, "rung": reference.rung}
        days.append({**own, **depths, "flags": write.all(flag.message for flag in reference.flags)})
    return days


def suggestions_shown(site: Site, found: tuple[Sequence[Suggestion], Sequence[Message]], write: Writer) -> Shown:
    """Suggested percentages."""
    return {
        "night": site.night.isoformat(),
        "suggestions": [
            {
                "program": one.program,
                "from_pct": one.from_pct,
                "to_pct": one.to_pct,
                "by_itself": one.by_itself,
                "message": write.said(one.message),
            }
            for one in found[0]
        ],
        "messages": write.all(found[1]),
        "caution": write.caution,
    }


def budget_shown(found: YearBudget, write: Writer) -> Shown:
    """A year's budget."""
    return {
        "year": found.year,
        "currency": found.currency,
        "lines": [
            {
                "month": line.month,
                "hydrozone": line.hydrozone,
                "allowed_l": line.allowed_l,
                "planned_l": line.planned_l,
                "used_l": line.used_l,
                "left_l": line.left_l,
            }
            for line in found.lines
        ],
        "costs": [{"month": month, "used_l": litres, "amount": amount} for month, litres, amount in found.costs],
        "caution": write.caution,
    }


def work_table(work: TurnWork, write: Writer) -> str:
    """The work as CSV (RFC 4180), each figure's name in the reader's language beside its key."""
    head, *rows = as_rows(work.figures)
    named = [(row[0], say(figure.name, write.reader), *row[1:]) for row, figure in zip(rows, work.figures, strict=True)]
    return _csv([(head[0], "name", *head[1:]), *named])


def season_table(season: Season) -> str:
    """A season as CSV (RFC 4180): a line a day, in mm, with its reference and rung."""
    head, *rows = season_rows(season.kept)
    references = {one.day.isoformat(): one for one in season.references}
    lines = [(*head, "reference_mm", "rung")]
    for row in rows:
        one = references[row[0]]
        lines.append((*row, "" if one.et_mm is None else repr(one.et_mm), one.rung))
    return _csv(lines)


def _csv(rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    return out.getvalue()
