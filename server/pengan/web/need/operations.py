"""The water need of a site for those who may read it: nights, the work behind a turn, seasons, suggestions, budgets."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from math import fsum

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at, night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.message import Message, saying
from pengan.engine.need.allowance import BudgetLine
from pengan.engine.need.prices import Charge
from pengan.engine.need.seasonal import Suggestion
from pengan.engine.need.site.budget import budget, month_bill
from pengan.engine.need.site.nights import SiteNeeds, Start, Watered, needs_on, starts_on
from pengan.engine.need.site.suggestions import suggestions
from pengan.engine.need.site.work import Season, TurnWork, season, turn_work
from pengan.words.names import SiteNames
from pengan.words.wall import SiteWall

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem, night_out_of_reach
from ..sites.operations import document_in
from ..used.nights import came_by_hydrozone
from .starts import earliest_starts, latest_starts
from .waterings import KEPT_DAYS, as_watered, kept_waterings, since, waterings

DAYS_AHEAD = 366
FIRST_YEAR, LAST_YEAR = 1970, 2200

no_such_turn = saying("need.no_such_turn", "There is no turn {given} at this site.")
turn_by_hand = saying("need.turn_by_hand", "{turn} is set by hand: there is no work to show.")
no_such_hydrozone = saying("need.no_such_hydrozone", "There is no hydrozone {given} at this site.")
no_balance = saying("need.no_balance", "No balance of {hydrozone} can be kept: something about it is missing.")
no_such_year = saying("need.no_such_year", "{given} is not a year from {first} to {last}.")


@dataclass(frozen=True, slots=True)
class Site:
    """A site as it stands, its names for sentences, the night that is asked about, and what nights brought."""

    document: Document
    night: date
    names: SiteNames
    watered: Watered
    earliest: dict[str, Start]
    latest: dict[str, Start]


@dataclass(frozen=True, slots=True)
class MonthCost:
    """A month's bill: for what was used, step by step (None: nothing yet), and for what is planned."""

    month: str
    used_l: float
    steps: tuple[Charge, ...]
    amount: Decimal | None
    planned_l: float
    planned_amount: Decimal


@dataclass(frozen=True, slots=True)
class YearBudget:
    """A year's lines, and what each month's water costs by the site's price steps (empty where it states none).

    `names` are the hydrozones', by id; one that was removed since has none.
    """

    year: int
    currency: str | None
    lines: tuple[BudgetLine, ...]
    costs: tuple[MonthCost, ...]
    names: dict[str, str]


def site_on(session: Session, actor: Actor | None, site: str, night: date | None, now: Instant) -> Site:
    """The site on a night (None: the one that `now` falls in), with what nights before it brought.

    Raises `Problem` where the actor may not read the site, or the night lies out of reach.
    """
    with reading(session):
        require(session, actor, site, "read")
        document = document_in(session, site).document
        clock = clock_of(document.site)
        tonight = night_at(clock, now).date
        wanted = _within_reach(night or tonight, tonight)
        kept = kept_waterings(session, site, since(wanted), wanted - timedelta(days=1))
        nights = waterings(session, site, document, since(wanted), min(wanted, tonight) - timedelta(days=1))
    shown = night_on(clock, wanted)
    names = SiteNames(document, SiteWall(clock, shown.starts, shown.ends))
    earliest, latest = (find(document, kept, wanted) for find in (earliest_starts, latest_starts))
    return Site(document, wanted, names, as_watered(nights), earliest, latest)


def _within_reach(night: date, tonight: date) -> date:
    earliest, latest = tonight - timedelta(KEPT_DAYS), tonight + timedelta(DAYS_AHEAD)
    if earliest <= night <= latest:
        return night
    said = night_out_of_reach(
        night_date=night.isoformat(), earliest_date=earliest.isoformat(), latest_date=latest.isoformat()
    )
    raise Problem(404, said)


def night_need(site: Site) -> SiteNeeds:
    """What every hydrozone needs on the night, those watered by hand too."""
    return needs_on(site.document, site.night, site.watered, starts=site.latest, all_zones=True)


def work_of(site: Site, turn: str) -> TurnWork:
    """The work behind one turn. Raises `Problem` where there is no such turn, or it is set by hand."""
    if turn not in site.document.turns:
        raise Problem(404, no_such_turn(given=turn))
    found = turn_work(site.document, turn, site.night, site.watered, site.latest)
    if found is None:
        raise Problem(404, turn_by_hand(turn=turn))
    return found


def season_of(site: Site, hydrozone: str) -> Season:
    """A hydrozone's days up to the night, from what somebody last said of its soil. Raises `Problem`."""
    if hydrozone not in site.document.hydrozones:
        raise Problem(404, no_such_hydrozone(given=hydrozone))
    found = season(site.document, hydrozone, site.night, site.watered, _starts(site, hydrozone))
    if found is None:
        raise Problem(404, no_balance(hydrozone=hydrozone))
    return found


def _starts(site: Site, hydrozone: str) -> dict[str, Start]:
    """The earlier of what the document says last and what is written down."""
    by_document = starts_on(site.document, [hydrozone], site.night)[hydrozone]
    written = site.earliest.get(hydrozone, by_document)
    return {hydrozone: min(written, by_document, key=lambda one: one.day)}


def suggestions_for(site: Site) -> tuple[tuple[Suggestion, ...], tuple[Message, ...]]:
    """What the programs' percentages should be on the night, or why nothing can be said."""
    return suggestions(site.document, site.night)


def budget_for(session: Session, actor: Actor | None, site: str, year: int, now: Instant) -> YearBudget:
    """A year's water. What was used is what came, and what their sheets have of past nights nobody told anything of.

    Raises `Problem`.
    """
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise Problem(404, no_such_year(given=str(year), first=str(FIRST_YEAR), last=str(LAST_YEAR)))
    with reading(session):
        require(session, actor, site, "read")
        document = document_in(session, site).document
        last_night = night_at(clock_of(document.site), now).date - timedelta(days=1)
        span = (date(year, 1, 1), min(date(year, 12, 31), last_night))
        nights, came = waterings(session, site, document, *span), came_by_hydrozone(session, site, *span)
    used: dict[tuple[str, str], float] = {}
    for (night, zone), litres in {**{(one.night, one.hydrozone): one.volume_l for one in nights}, **came}.items():
        key = (night.isoformat()[:7], zone)
        used[key] = used.get(key, 0.0) + litres
    lines = budget(document, year, used)
    names = {zone.id: zone.name for zone in document.hydrozones.values()}
    return YearBudget(year, document.site.currency or None, lines, _costs(document, lines), names)


def _costs(document: Document, lines: tuple[BudgetLine, ...]) -> tuple[MonthCost, ...]:
    if not document.tiers:
        return ()
    months: dict[str, list[BudgetLine]] = {}
    for line in lines:
        months.setdefault(line.month, []).append(line)
    return tuple(_cost(document, month, theirs) for month, theirs in months.items())


def _cost(document: Document, month: str, lines: list[BudgetLine]) -> MonthCost:
    used, planned = fsum(line.used_l for line in lines), fsum(line.planned_l for line in lines)
    steps, amount = month_bill(document, used)
    return MonthCost(month, used, steps, amount if used else None, planned, month_bill(document, planned)[1])
