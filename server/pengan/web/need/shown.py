"""The water need as it stands in answers: figures in base units, sentences in the reader's language."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from math import fsum

from pengan.engine.message import Message
from pengan.engine.need.seasonal import Suggestion
from pengan.engine.need.site.nights import SiteNeeds
from pengan.engine.need.site.shapes import figure_shape, night_shape, season_shape, suggestions_shape, work_shape
from pengan.engine.need.site.weather import day_weather_on
from pengan.engine.need.site.work import Season, TurnWork
from pengan.engine.need.tonight import CAUTION
from pengan.engine.need.trace import as_rows, season_rows
from pengan.words.reader import Reader
from pengan.words.say import say

from .operations import MonthCost, Site, YearBudget

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


def night_shown(site: Site, needs: SiteNeeds, write: Writer) -> Shown:
    """A night of the whole site."""
    shape = night_shape(needs, day_weather_on(site.document, needs.night), write.said)
    return {**shape, "caution": write.caution}


def work_shown(work: TurnWork, write: Writer) -> Shown:
    """The work behind a turn."""
    shape = work_shape(work, write.said)
    return {**shape, "figures": _figures(work, write), "caution": write.caution}


def _figures(work: TurnWork, write: Writer) -> list[Shown]:
    return [{**figure_shape(figure), "name": say(figure.name, write.reader)} for figure in work.figures]


def season_shown(season: Season, write: Writer) -> Shown:
    """A hydrozone's days."""
    return {**season_shape(season, write.said), "caution": write.caution}


def suggestions_shown(site: Site, found: tuple[Sequence[Suggestion], Sequence[Message]], write: Writer) -> Shown:
    """Suggested percentages."""
    return {**suggestions_shape(site.night, found, write.said), "caution": write.caution}


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
        "costs": [_cost(cost) for cost in found.costs],
        "caution": write.caution,
    }


def _cost(cost: MonthCost) -> Shown:
    return {
        "month": cost.month,
        "used_l": cost.used_l,
        "amount": None if cost.amount is None else str(cost.amount),
        "steps": [
            {"volume_l": float(step.litres), "price": str(step.per_m3), "amount": str(step.amount)}
            for step in cost.steps
        ],
        "planned_l": cost.planned_l,
        "planned_amount": str(cost.planned_amount),
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


FORMULA = ("=", "+", "-", "@", "\t", "\r")


def _typed(text: str) -> str:
    """What somebody typed: a spreadsheet shall not work it out as a formula."""
    return f"'{text}" if text.startswith(FORMULA) else text


BUDGET_COLUMNS = (
    *("month", "hydrozone", "name", "allowed_l", "planned_l", "used_l", "left_l"),
    *("cost", "planned_cost", "currency"),
)


def budget_table(found: YearBudget) -> str:
    """A year as CSV (RFC 4180), in litres: a line a month and hydrozone, and one a month for the whole site's cost."""
    months = sorted({line.month for line in found.lines})
    costs = {cost.month: cost for cost in found.costs}
    rows = [row for month in months for row in _month_rows(found, month, costs.get(month))]
    return _csv([BUDGET_COLUMNS, *rows])


def _month_rows(found: YearBudget, month: str, cost: MonthCost | None) -> Iterator[Sequence[str]]:
    lines = [line for line in found.lines if line.month == month]
    for line in lines:
        litres = (line.allowed_l, line.planned_l, line.used_l, line.left_l)
        yield (month, line.hydrozone, _typed(found.names.get(line.hydrozone, "")), *map(repr, litres), "", "", "")
    if cost is not None:
        whole = (fsum(line.allowed_l for line in lines), cost.planned_l, cost.used_l, fsum(x.left_l for x in lines))
        paid = "" if cost.amount is None else str(cost.amount)
        yield (month, "", "", *map(repr, whole), paid, str(cost.planned_amount), found.currency or "")


def _csv(rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    return out.getvalue()
