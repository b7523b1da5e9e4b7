"""What can be done with sites: list them, read one's document, put a document in its place."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document

from ..database import reading
from ..people.rights import Actor, readable_sites, require
from ..problems import Problem, no_such_site
from ..sync.importing import put_records
from ..sync.taking import Sender
from .models import REMOVED, ROW_COLUMNS, ROW_ORDER, ROWS, SiteCopy

Row = dict[str, object]


@dataclass(frozen=True, slots=True)
class SiteLine:
    """A site as it stands in the list of sites."""

    id: str
    name: str
    revision: int


@dataclass(frozen=True, slots=True)
class SiteDocument:
    """A site's document at one revision."""

    site: str
    revision: int
    document: Document


def list_sites(session: Session) -> list[SiteLine]:
    """All sites, by name, for the server itself."""
    site = ROWS["site"]
    found = (
        select(SiteCopy.site, site.c.name, SiteCopy.revision)
        .join(site, site.c.site == SiteCopy.site)
        .order_by(site.c.name, SiteCopy.site)
    )
    with reading(session):
        return [SiteLine(*row) for row in session.execute(found)]


def sites_for(session: Session, actor: Actor | None) -> list[SiteLine]:
    """The sites the actor may read, by name."""
    lines = list_sites(session)
    with reading(session):
        readable = readable_sites(session, actor)
    return [line for line in lines if line.id in readable]


def document_for(session: Session, actor: Actor | None, site: str) -> SiteDocument:
    """The site's document. Raises `Problem` where the actor may not read it, as if there were no such site."""
    with reading(session):
        require(session, actor, site, "read")
        return document_in(session, site)


def document_of(session: Session, site: str) -> SiteDocument:
    """The site's document, for the server itself. Raises `Problem` where there is no such site."""
    with reading(session):
        return document_in(session, site)


def document_in(session: Session, site: str) -> SiteDocument:
    """The site's document, inside the caller's transaction. Raises `Problem` where there is no such site."""
    copy = session.get(SiteCopy, site, populate_existing=True)
    if copy is None:
        raise Problem(404, no_such_site(site_id=site))
    data = {"format": copy.format, "records": _stored_records(session, site)}
    return SiteDocument(site, copy.revision, read_document(data))


def put_document(session: Session, data: object, person: str = "", now: Instant | None = None) -> SiteDocument:
    """Store a document in the place of the site's former one, as one set of edits by `person` (nobody: the server).

    Its revision rises only if something changed. Raises `DocumentFaults` with every fault where the document is not a
    good one. `now` is the machine's clock unless given.
    """
    document = read_document(data)
    at = Instant(int(time.time())) if now is None else now
    with session.begin():
        copy = put_records(session, document.site.id, _records(document), Sender(person, None, at))
        return SiteDocument(document.site.id, copy.revision, document)


def _records(document: Document) -> list[Row]:
    written = write_document(document)["records"]
    assert isinstance(written, list)
    return written


def _stored_records(session: Session, site: str) -> list[Row]:
    records: list[Row] = []
    for name, table in ROWS.items():
        rows = session.execute(
            select(table).where(table.c.site == site, ~table.c[REMOVED]).order_by(table.c[ROW_ORDER])
        ).mappings()
        records.extend(_record(name, dict(row)) for row in rows)
    return records


def _record(table: str, row: Mapping[str, object]) -> Row:
    kept = {name: value for name, value in row.items() if value is not None and name not in ("site", *ROW_COLUMNS)}
    return {"table": table} | kept
