"""What came in single nights, for whoever reckons with it: budgets, and the need of the nights after."""

from __future__ import annotations

from datetime import date

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from .models import UsedNight, UsedWater


def came_by_hydrozone(session: Session, site: str, first: date, last: date) -> dict[tuple[date, str], float]:
    """Litres that came to each hydrozone in nights of which something was told. Belongs to the caller's transaction."""
    came = func.sum(UsedWater.delivered_ml + UsedWater.assumed_ml + UsedWater.beyond_ml)
    told = select(UsedNight.night).where(UsedNight.site == site, UsedNight.told.is_(True))
    rows = (
        select(UsedWater.night, UsedWater.hydrozone, came.label("came"))
        .where(UsedWater.site == site, UsedWater.night.between(first.isoformat(), last.isoformat()))
        .where(UsedWater.night.in_(told), UsedWater.hydrozone != "")
        .group_by(UsedWater.night, UsedWater.hydrozone)
    )
    return {(date.fromisoformat(row.night), row.hydrozone): int(row.came) / 1000 for row in session.execute(rows)}
