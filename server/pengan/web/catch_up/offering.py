"""What may become of the rest of tonight, worked out when somebody asks: to keep to the clock, or to recover."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from pengan.engine.catch_up.rest import Rest, Way
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.journal.outages import FOREVER, Outages, outages
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import sheet_as_json

from ..database import reading
from ..journal.names import names_of_tellers
from ..nights.stored import sheet_before, sheet_in
from ..people.rights import Actor, require
from ..sites.operations import SiteDocument, document_for
from .kept import Accepted, accepted_of
from .tonight import Stood, stood

EFFORT = 8
"""Constructions for an offer: what the server takes for a night that an edit has changed. The phone takes as many."""


@dataclass(frozen=True, slots=True)
class Interruption:
    """A span of tonight without power, water or permission; `until` None: it goes on. `what`: power, shut, stopped."""

    what: str
    since: int
    until: int | None
    controller: str | None = None
    supply: str | None = None


@dataclass(frozen=True, slots=True)
class Offers:
    """Tonight as it stands at the instant `now`, and its two rests where something was missed or stands in the way."""

    night: str
    now: int
    interruptions: tuple[Interruption, ...]
    rests: Mapping[Way, Rest]
    accepted: Sequence[Accepted]
    names: Mapping[str, str]

    def shown(self) -> dict[str, Any]:
        """As the API answers it."""
        offers = {way.value: _rest(rest) for way, rest in self.rests.items()} or None
        accepted = [
            {
                "id": one.id,
                "at": one.at,
                "way": one.way.value,
                "promised": [promise.as_json() for promise in one.promised],
                "by": one.by,
                "worked_out": one.worked_out,
                "effect": one.effect,
            }
            for one in self.accepted
        ]
        return {
            "night": self.night,
            "now": self.now,
            "interruptions": self.interruptions,
            "offers": offers,
            "accepted": accepted,
            "names": dict(self.names),
        }


def offers_for(session: Session, actor: Actor, site: str, now: int, *, with_rests: bool = True) -> Offers:
    """The offers for tonight; working both rests out takes seconds, and may be left out.

    Raises `Problem` unless the actor works at the site.
    """
    with reading(session):
        require(session, actor, site, "note")
    found = document_for(session, actor, site)
    with reading(session):
        tonight = night_at(clock_of(found.document.site), now).date
        as_it_is = stood(session, found.document, tonight, accepted_of(session, site, tonight))
        sheet = in_force(session, found, as_it_is)
        names = names_of_tellers(session, [one.by for one in as_it_is.accepted])
    night = as_it_is.night.date.isoformat()
    rests = {} if sheet is None or not with_rests else dict(_rests(as_it_is, sheet, now))
    out = outages(found.document, as_it_is.until(now))
    return Offers(night, now, tuple(_interruptions(found, out)), rests, as_it_is.accepted, names)


def in_force(session: Session, found: SiteDocument, as_it_is: Stood) -> NightSheet | None:
    """The stored sheet; none while something that was accepted is not worked out yet. Inside a
    transaction."""
    stored = sheet_before(session, found.site, as_it_is.night.date, found.revision)
    return None if stored is None or as_it_is.pending else sheet_in(stored)


def _rests(as_it_is: Stood, sheet: NightSheet, now: int) -> Iterator[tuple[Way, Rest]]:
    """Both, or nothing where tonight goes on as its sheet has it."""
    kept = as_it_is.rest(sheet, now, Way.KEEP, EFFORT)
    if is_news(sheet, kept):
        yield Way.KEEP, kept
        yield Way.RECOVER, as_it_is.rest(sheet, now, Way.RECOVER, EFFORT)


def is_news(sheet: NightSheet, kept: Rest) -> bool:
    """Whether keeping to the clock loses something of what the sheet planned, or moves something that is to come."""
    return kept.effect.missed_l > 0 or kept.effect.moved_count > 0


def _rest(rest: Rest) -> dict[str, Any]:
    return {"sheet": sheet_as_json(rest.sheet), "effect": rest.effect.as_json()}


def _interruptions(found: SiteDocument, out: Outages) -> Iterator[Interruption]:
    """The outages, each told once: the whole site's for all its controllers, a supply's for all that it feeds."""
    whole = out.power.get(None, ())
    yield from (Interruption("power", *_span(span)) for span in whole)
    for controller, spans in out.power.items():
        if controller is not None:
            yield from (Interruption("power", *_span(one), controller=controller) for one in spans if one not in whole)
    for supply, spans in out.shut.items():
        above = found.document.supplies[supply].fed_by
        told = out.shut.get(above, ()) if above is not None else ()
        yield from (Interruption("shut", *_span(one), supply=supply) for one in spans if one not in told)
    yield from (Interruption("stopped", *_span(span)) for span in out.stopped)


def _span(span: tuple[int, int]) -> tuple[int, int | None]:
    return span[0], None if span[1] == FOREVER else span[1]
