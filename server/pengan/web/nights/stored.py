"""Night sheets in the database: found by the revision they hold for, compressed, and numbered when they are given out.

A sheet's canonical JSON shrinks to about a twelfth; a site of a hundred stations is 20 kB a night that way.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from datetime import date

import tzdata
from sqlalchemy import Select, delete, select
from sqlalchemy.orm import Session

from pengan.engine import ENGINE_VERSION
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import dumps, loads

from .models import StoredSheet

PLANNER = f"{ENGINE_VERSION} {tzdata.IANA_VERSION}"
"""The engine and the zone data that plan here: another pair may plan another night."""


def packed(sheet: NightSheet) -> bytes:
    """The sheet as it is stored."""
    return zlib.compress(dumps(sheet).encode())


def body_of(stored: StoredSheet) -> str:
    """The sheet's canonical JSON."""
    return zlib.decompress(stored.packed).decode()


def sheet_in(stored: StoredSheet) -> NightSheet:
    """The sheet again."""
    return loads(body_of(stored))


def sheet_at(session: Session, site: str, night: date, revision: int) -> StoredSheet | None:
    """What this planner worked out for a night of this revision, or None."""
    return session.scalar(
        _of_this_planner(site, night)
        .where(StoredSheet.revision <= revision, StoredSheet.good_for >= revision)
        .order_by(StoredSheet.revision.desc())
        .limit(1)
    )


def sheet_before(session: Session, site: str, night: date, revision: int) -> StoredSheet | None:
    """The newest sheet of a night for this revision or an earlier one: what a new one takes the place of."""
    older = _of_this_planner(site, night).where(StoredSheet.revision <= revision)
    return session.scalar(older.order_by(StoredSheet.revision.desc()).limit(1))


def of_any_planner(session: Session, site: str, night: date) -> StoredSheet | None:
    """The sheet of a night that was given out last, whichever engine and zone data planned it."""
    found = select(StoredSheet).where(StoredSheet.site == site, StoredSheet.night == night.isoformat())
    given = found.where(StoredSheet.number.is_not(None)).order_by(StoredSheet.number.desc()).limit(1)
    return session.scalar(given)


def newest_sheets(session: Session, site: str, nights: Iterable[date]) -> dict[str, StoredSheet]:
    """The newest sheet of each of these nights that this planner worked out."""
    wanted = [night.isoformat() for night in nights]
    found = (
        select(StoredSheet)
        .where(StoredSheet.site == site, StoredSheet.planner == PLANNER, StoredSheet.night.in_(wanted))
        .order_by(StoredSheet.night, StoredSheet.revision)
    )
    return {stored.night: stored for stored in session.scalars(found)}


def drop_outdated(session: Session, site: str, tonight: date, oldest: date) -> None:
    """Let go of what nobody asks for: nights before `oldest`, and of past nights all sheets but the last in force."""
    past = StoredSheet.night < tonight.isoformat()
    session.execute(
        delete(StoredSheet).where(StoredSheet.site == site, StoredSheet.night < oldest.isoformat()),
        execution_options={"synchronize_session": False},
    )
    inner = StoredSheet.__table__.alias("newer")
    newer = (
        select(inner.c.site)
        .where(inner.c.site == site, inner.c.night == StoredSheet.night, inner.c.revision > StoredSheet.revision)
        .exists()
    )
    session.execute(
        delete(StoredSheet).where(StoredSheet.site == site, past, newer),
        execution_options={"synchronize_session": False},
    )


def _of_this_planner(site: str, night: date) -> Select[StoredSheet]:
    return select(StoredSheet).where(
        StoredSheet.site == site, StoredSheet.night == night.isoformat(), StoredSheet.planner == PLANNER
    )
