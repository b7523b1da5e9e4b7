"""Teams, and the sites that belong to them."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..database import reading
from ..sites.models import ROWS, SiteCopy
from .models import Grant, Team, TeamSite
from .tokens import new_id


def team_of(session: Session, site: str) -> str | None:
    """The team a site belongs to."""
    return session.scalar(select(TeamSite.team).where(TeamSite.site == site))


def adopt(session: Session, site: str, team: str | None = None, open_to_read: bool = False) -> str:
    """Give a site that belongs to nobody a team (None: a new one, named like the site), and tell which it belongs to.

    Call it inside a transaction, for a site that exists.
    """
    held = team_of(session, site)
    if held is not None:
        return held
    wanted = team or _new_team(session, site)
    session.add(TeamSite(site=site, team=wanted, open_to_read=open_to_read))
    session.flush()
    return wanted


def adopt_all(session: Session, open_site: str | None) -> None:
    """Give every site that belongs to nobody a team of its own; `open_site` may be read by anybody."""
    with session.begin():
        held = select(TeamSite.site)
        for site in session.scalars(select(SiteCopy.site).where(SiteCopy.site.not_in(held))).all():
            adopt(session, site, open_to_read=site == open_site)


def without_manager(session: Session) -> list[str]:
    """The sites that nobody manages yet."""
    managed = select(Grant.site).where(Grant.role == "manager")
    with reading(session):
        return list(session.scalars(select(SiteCopy.site).where(SiteCopy.site.not_in(managed)).order_by(SiteCopy.site)))


def site_exists(session: Session, site: str) -> bool:
    """Whether there is such a site."""
    return session.scalar(select(SiteCopy.site).where(SiteCopy.site == site)) is not None


def lock_site(session: Session, site: str) -> None:
    """Wait for whoever changes the site now, and let the next one wait: a role is never taken away amid an edit."""
    session.execute(select(SiteCopy.site).where(SiteCopy.site == site).with_for_update())


def _new_team(session: Session, site: str) -> str:
    rows = ROWS["site"]
    name = session.scalar(select(rows.c.name).where(rows.c.site == site)) or site
    team = Team(id=new_id(), name=str(name))
    session.add(team)
    session.flush()
    return team.id
