"""Rules that people set, carried out: a word in the journal, and an order for whoever holds the valve."""

from __future__ import annotations

from sqlalchemy import or_, select

from pengan.engine.journal.alarm import made_id
from pengan.engine.journal.before import OF_OUTAGES, OUTAGES_S
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.shutting import SHUT_BY_RULE, SHUT_BY_SITE, ToShut, looks_back_s, to_shut

from ..journal.finding import happened
from ..journal.names import SERVER
from ..sync.answering import names_of
from ..sync.models import Edit
from .filing import Filing
from .models import Order

RULE = "shut_above_lpm"


def shut_by_rule(filing: Filing) -> None:
    """Shut what a rule shuts now. Belongs to a look's transaction; most sites have no rule, and nothing is read."""
    back = looks_back_s(filing.document)
    if not back:
        return
    session, site, now = filing.session, filing.watched.site, filing.now
    readings = happened(session, site, now - back, now + 1, (Kind.FLOW,))
    outages = happened(session, site, now - OUTAGES_S, now + 1, OF_OUTAGES)
    for one in to_shut(filing.document, readings, outages, now):
        _shut(filing, one)


def _shut(filing: Filing, one: ToShut) -> None:
    site = filing.watched.site
    id = made_id(site, RULE, one.supply, str(one.since))
    if filing.session.get(Order, (site, id)) is not None:
        return
    person = _who_said_so(filing, one.supply)
    about: dict[str, str | float] = {"supply": one.supply, "flow_lpm": one.flow_lpm, "limit_lpm": one.limit_lpm}
    said = SHUT_BY_SITE(**about) if person is None else SHUT_BY_RULE(person=person, **about)
    filing.say(Entry(id, filing.now, Kind.SHUT, SERVER, supply=one.supply), said)
    filing.session.add(
        Order(
            site=site, id=id, at=filing.now, supply=one.supply, flow_lpm=one.flow_lpm, limit_lpm=one.limit_lpm,
            sent_at=None, lapsed=False,
        )
    )  # fmt: skip


def _who_said_so(filing: Filing, supply: str) -> str | None:
    """The name of whoever set the rule last; None where the document came with it."""
    edits = (
        select(Edit.person)
        .where(Edit.site == filing.watched.site, Edit.record_table == "supplies", Edit.record == supply)
        .where(or_(Edit.field == RULE, Edit.field.is_(None)), Edit.outcome.in_(("taken", "agreed")))
        .order_by(Edit.revision.desc(), Edit.field.is_(None))
        .limit(1)
    )
    person = filing.session.scalar(edits)
    return names_of(filing.session, [person]).get(person) if person else None
