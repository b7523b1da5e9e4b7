"""Which records of a site entries may be about: all that its document has, or once had."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from weakref import WeakKeyDictionary

from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from pengan.engine.journal.fields import PLACES
from pengan.engine.journal.reading import Known

from ..problems import Problem, no_such_site
from ..sites.models import ROWS, SiteCopy

MOST_SITES = 100
"""Kept in memory, in each process."""
_State = tuple[str, int]
_kept: WeakKeyDictionary[Engine, OrderedDict[str, tuple[_State, Known]]] = WeakKeyDictionary()
_lock = Lock()


def known_at(session: Session, site: str) -> Known:
    """The site's ids, inside the caller's transaction; read anew only where the document has changed since.

    Raises `Problem` where there is no such site.
    """
    found = session.execute(select(SiteCopy.epoch, SiteCopy.revision).where(SiteCopy.site == site)).one_or_none()
    if found is None:
        raise Problem(404, no_such_site(site_id=site))
    state, bind = (found.epoch, found.revision), session.get_bind()
    engine = bind if isinstance(bind, Engine) else bind.engine
    with _lock:
        kept = _kept.setdefault(engine, OrderedDict()).get(site)
    return kept[1] if kept is not None and kept[0] == state else _read(session, engine, site, state)


def _read(session: Session, engine: Engine, site: str, state: _State) -> Known:
    ids = (select(ROWS[table].c.id).where(ROWS[table].c.site == site) for table in PLACES.values())
    known = Known(*(frozenset(session.scalars(wanted)) for wanted in ids))
    with _lock:
        sites = _kept[engine]
        sites[site] = (state, known)
        sites.move_to_end(site)
        while len(sites) > MOST_SITES:
            sites.popitem(last=False)
    return known
