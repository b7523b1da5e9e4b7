"""A night of which only the rest is planned: one under way, or one of which somebody has accepted a rest.

What is new is worked out in its order: the rests that were accepted, each at its own instant, so that the phone and
the server come to the same sheet; then what edits changed, from now on; then the outages that still go on, for which
somebody accepted to wait.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from sqlalchemy.orm import Session

from pengan.engine.catch_up.effect import Effect
from pengan.engine.catch_up.happened import from_journal
from pengan.engine.catch_up.rest import Rest, Way, rest_of_night
from pengan.engine.catch_up.under_way import is_of_its_clock, is_under_way
from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.outages import Outages, outages
from pengan.engine.plan.sheet import NightSheet

from ..journal.finding import happened
from .kept import Accepted

TOLD = tuple(kind for kind in Kind if kind not in (Kind.FLOW, Kind.COUNT, Kind.REPLACED, Kind.NOTE, Kind.FINDING))
"""What says how far a night has come; meters' readings, the most of a journal, do not."""


@dataclass(frozen=True)
class Stood:
    """A night with what was accepted for it and what happened in it, read at one moment."""

    document: Document
    night: Night
    accepted: Sequence[Accepted]
    entries: Sequence[Entry]

    @property
    def done(self) -> tuple[Accepted, ...]:
        """What the stored sheet knows of already."""
        return tuple(one for one in self.accepted if one.worked_out)

    @property
    def pending(self) -> tuple[Accepted, ...]:
        """What it does not know of yet."""
        return tuple(one for one in self.accepted if not one.worked_out)

    def until(self, now: int) -> tuple[Entry, ...]:
        """What had happened by an instant, and what those who had accepted something by then expected.

        A promised hour that has passed counts as kept until the journal says otherwise, as the sheet in force has it.
        """
        told = (entry for entry in self.entries if entry.at <= now)
        promised = (promise.entry() for one in self.accepted if one.at <= now for promise in one.promised)
        return (*told, *promised)

    def rest(self, before: NightSheet, now: int, way: Way, effort: int) -> Rest:
        """The rest of the night from an instant on."""
        so_far = from_journal(self.document, before, self.until(now), now)
        return rest_of_night(self.document, before, now, so_far, way=way, effort=effort)


def stood(session: Session, document: Document, night: date, accepted: Sequence[Accepted]) -> Stood:
    """Read it. Inside a transaction."""
    span = night_on(clock_of(document.site), night)
    return Stood(document, span, accepted, happened(session, document.site.id, span.starts, span.ends, TOLD))


def to_plan(session: Session, document: Document, night: date, accepted: Sequence[Accepted]) -> Stood:
    """The same for planning: what happened is read only where somebody accepted a rest. Inside a transaction."""
    if accepted:
        return stood(session, document, night, accepted)
    return Stood(document, night_on(clock_of(document.site), night), (), ())


def only_its_rest(document: Document, sheet: NightSheet, accepted: Sequence[Accepted], now: int) -> bool:
    """Whether this night is never planned as a whole again, unless the site gets another clock."""
    is_begun = sheet.starts <= now < sheet.ends and (bool(accepted) or is_under_way(sheet, now))
    return is_begun and is_of_its_clock(document, sheet)


def inputs_with(inputs: str, accepted: Sequence[Accepted]) -> str:
    """The fingerprint of a night that was caught up; that of the document alone where nothing was accepted."""
    if not accepted:
        return inputs
    return hashlib.sha256("\n".join([inputs, *sorted(one.id for one in accepted)]).encode()).hexdigest()


@dataclass
class Resting:
    """How tonight comes about from its sheet. `inputs` is the document's own fingerprint for it, `effort` an edit's."""

    stood: Stood
    now: int
    inputs: str
    effort: int
    effects: dict[str, Effect] = field(default_factory=dict)

    def sheet(self, before: NightSheet, known: str) -> NightSheet:
        """The new sheet. `known` is the fingerprint of what decided `before`."""
        sheet = before
        for one in self.stood.pending:
            rest = self.stood.rest(sheet, one.at, one.way, one.effort)
            sheet, self.effects[one.id] = rest.sheet, rest.effect
        if known == inputs_with(self.inputs, self.stood.done):
            return sheet
        return self._edited(sheet)

    def _edited(self, before: NightSheet) -> NightSheet:
        document, now = self.stood.document, self.now
        sheet = rest_of_night(document, before, now, effort=self.effort).sheet
        if not self.stood.accepted or not _go_on(outages(document, self.stood.until(now)), now):
            return sheet
        last = self.stood.accepted[-1]
        return self.stood.rest(sheet, now, last.way, last.effort).sheet


def _go_on(out: Outages, now: int) -> bool:
    spans = [*out.power.values(), *out.shut.values(), out.stopped]
    return any(end > now for each in spans for _, end in each)
