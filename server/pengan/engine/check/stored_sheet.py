"""A stored night sheet against the document that it is said to be of."""

from __future__ import annotations

from datetime import date

from ..clock.nights import night_on
from ..clock.zones import clock_of
from ..document.document import Document
from ..message import saying
from ..plan.build import build
from ..plan.problem import Plan
from ..plan.sheet import NightSheet
from . import violations
from .violation import Violation

RULE = "sheet_run"
STRANGE = saying("check.sheet_run", "{station} has a run in the sheet that is not due this night.")


def sheet_violations(document: Document, sheet: NightSheet) -> tuple[Violation, ...]:
    """Every limit of the document that the sheet's runs break, and every run that is no cycle due that night.

    Raises `ClockFault` where the site's clock or the sheet's date is none.
    """
    clock = clock_of(document.site)
    problem = build(document, night_on(clock, date.fromisoformat(sheet.night)), clock).problem
    lengths = {(chain.key, cycle + 1): length for chain in problem.chains for cycle, length in enumerate(chain.cycles)}
    due = [run for run in sheet.runs if lengths.get((run.turn, run.cycle)) == run.end - run.start]
    starts = {(run.turn, run.cycle): run.start - sheet.starts for run in due}
    rows = tuple(
        tuple(starts.get((chain.key, cycle + 1)) for cycle in range(len(chain.cycles))) for chain in problem.chains
    )
    strange = tuple(
        Violation(RULE, STRANGE(station=run.station), f"{run.turn}/{run.cycle}", run.start - sheet.starts)
        for run in sheet.runs
        if lengths.get((run.turn, run.cycle)) != run.end - run.start
    )
    return (*strange, *violations(problem, Plan(rows, (), 0)))
