"""What can be done with sites: list them, read one's document, put a document in its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import delete, insert, select
from sqlalchemy.orm import Session

from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.document.tables import FORMAT, TABLES
from pengan.engine.document.write import write_document

from ..problems import Problem, no_such_site
from .models import REVISION, ROW_COLUMNS, ROW_ORDER, ROWS, VERSIONS, SiteCopy

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
    """All sites, by name."""
    site = ROWS["site"]
    found = (
        select(SiteCopy.site, site.c.name, SiteCopy.revision)
        .join(site, site.c.site == SiteCopy.site)
        .order_by(site.c.name, SiteCopy.site)
    )
    with session.begin():
        return [SiteLine(*row) for row in session.execute(found)]


def document_of(session: Session, site: str) -> SiteDocument:
    """The site's document. Raises `Problem` where there is no such site."""
    with session.begin():
        copy = session.get(SiteCopy, site)
        if copy is None:
            raise Problem(404, no_such_site(site_id=site))
        data = {"format": copy.format, "records": _stored_records(session, site)}
        return SiteDocument(site, copy.revision, read_document(data))


def put_document(session: Session, data: object) -> SiteDocument:
    """Store a document in the place of the site's former one. Its revision rises only if something changed.

    Raises `DocumentFaults` with every fault where the document is not a good one.
    """
    document = read_document(data)
    site = document.site.id
    with session.begin():
        copy = session.get(SiteCopy, site, with_for_update=True)
        if copy is None:
            copy = SiteCopy(site=site, format=FORMAT, revision=0)
            session.add(copy)
            session.flush()
        records = _records(document)
        if copy.revision == 0 or _stored_records(session, site) != records:
            _replace_records(session, site, records)
            copy.format = FORMAT
            copy.revision += 1
        return SiteDocument(site, copy.revision, document)


def _records(document: Document) -> list[Row]:
    written = write_document(document)["records"]
    assert isinstance(written, list)
    return _by_table(written)


def _by_table(records: list[Row]) -> list[Row]:
    place = {record.table: index for index, record in enumerate(TABLES)}
    return sorted(records, key=lambda record: place[str(record["table"])])


def _replace_records(session: Session, site: str, records: list[Row]) -> None:
    for table in reversed(ROWS.values()):
        session.execute(delete(table).where(table.c.site == site))
    for name, table in ROWS.items():
        rows = [_row(site, record, order) for order, record in enumerate(records) if record["table"] == name]
        if rows:
            session.execute(insert(table), rows)


def _row(site: str, record: Row, order: int) -> Row:
    columns = ROWS[str(record["table"])].columns.keys()
    given = {name: record.get(name) for name in columns if name not in ROW_COLUMNS}
    return given | {"site": site, ROW_ORDER: order, REVISION: 1, VERSIONS: "{}"}


def _stored_records(session: Session, site: str) -> list[Row]:
    records: list[Row] = []
    for name, table in ROWS.items():
        rows = session.execute(select(table).where(table.c.site == site).order_by(table.c[ROW_ORDER])).mappings()
        records.extend(_record(name, dict(row)) for row in rows)
    return records


def _record(table: str, row: Mapping[str, object]) -> Row:
    kept = {name: value for name, value in row.items() if value is not None and name not in ("site", *ROW_COLUMNS)}
    return {"table": table} | kept
