"""One site with all its history in one file, to be taken to another server: text, one JSON value a line.

    {"pengan": "site", "format": 1, "site": "park", "steps": ["0004"], "written_at": 1795600000}
    {"document": {"format": 1, "records": […]}}          what the server serves, and the engine reads
    {"person": {"id": …, "name": …}}                     whom the history names
    {"weather_station": {"id": …, "name": …}}            what else it names: whatever sent weather
    {"table": "edits", "row": {…}}                       the rows behind it: records, removed ones too, edits, trays
    {"lines": 812, "sha256": "…"}                        of all the lines before

Night sheets, notices and the queue do not travel: they are worked out anew. Nor do roles and devices: the site gets a
team of the other server's own, and the people and weather stations named stay in it as names without rights.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

from sqlalchemy import Connection, Table, select, text
from sqlalchemy.orm import Session

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document

from ..database import reading
from ..need.models import NightWatering, WeatherStation
from ..people.models import Person
from ..sites.models import ROWS, SiteCopy
from ..sites.operations import document_in
from ..sync.models import Edit, Waiting
from .faults import MovingFault, damaged, newer, not_ours
from .rows import Row, rows_of
from .steps import Stored, is_known

KIND = "site"
FORMAT = 1
TABLES: tuple[Table, ...] = (
    cast(Table, SiteCopy.__table__),
    *ROWS.values(),
    cast(Table, Edit.__table__),
    cast(Table, Waiting.__table__),
    cast(Table, NightWatering.__table__),
)


@dataclass(frozen=True, slots=True)
class SiteFile:
    """What a site's file holds: the document, names of people and of stations by id, and the rows by their table."""

    site: str
    steps: tuple[str, ...]
    document: Document
    people: Mapping[str, str]
    weather_stations: Mapping[str, str]
    rows: Mapping[str, list[Row]] = field(repr=False)

    def stored(self) -> Stored:
        """The rows, table by table."""
        return {name: rows.__iter__ for name, rows in self.rows.items()}


def write_site(session: Session, site: str, file: Path, now: int) -> int:
    """Write a site's file, as the site stands at one moment; how many lines. Raises `Problem` where there is none.

    It is written beside that file first and takes its name when it is whole.
    """
    beside = file.with_name(f".{file.name}.part")
    sums, count = hashlib.sha256(), 0
    try:
        with reading(session), beside.open("wb") as out:
            for value in _values(session, site, now):
                line = _line(value)
                sums.update(line)
                out.write(line)
                count += 1
            out.write(_line({"lines": count, "sha256": sums.hexdigest()}))
        beside.replace(file)
    finally:
        beside.unlink(missing_ok=True)
    return count


def _values(session: Session, site: str, now: int) -> Iterator[Mapping[str, object]]:
    found = document_in(session, site)
    steps = sorted(session.scalars(text("SELECT version_num FROM alembic_version")))
    yield {"pengan": KIND, "format": FORMAT, "site": site, "steps": steps, "written_at": now}
    yield {"document": write_document(found.document)}
    line = session.connection()
    for kind, id, name in _named(line, site):
        yield {kind: {"id": id, "name": name}}
    for table in TABLES:
        for row in rows_of(line, table, site):
            yield {"table": table.name, "row": row}


def _named(line: Connection, site: str) -> Iterator[tuple[str, str, str]]:
    """Everybody, and every weather station, that the site's history and trays name."""
    columns = (
        (Edit.person, Edit.site),
        (Edit.decided_by, Edit.site),
        (Waiting.closed_by, Waiting.site),
    )
    ids = {id for column, of in columns for id in line.scalars(select(column).distinct().where(of == site))}
    for kind, table in (("person", Person), ("weather_station", WeatherStation)):
        named = select(table.id, table.name).where(table.id.in_(sorted(filter(None, ids)))).order_by(table.id)
        for row in line.execute(named).all():
            yield kind, row.id, row.name


def read_site(file: Path) -> SiteFile:
    """A site's file, checked whole. Raises `MovingFault`, `OSError`, and `DocumentFaults` with every fault."""
    lines = file.read_bytes().splitlines(keepends=True)
    head, *values = _checked(lines, file.name)
    if head.get("pengan") != KIND or not isinstance(head.get("format"), int):
        raise MovingFault(not_ours(file=file.name))
    if head["format"] > FORMAT or not is_known(head.get("steps", ())):
        raise MovingFault(newer(file=file.name))
    try:
        return _site_file(head, values)
    except (KeyError, TypeError, ValueError) as fault:
        if isinstance(fault, DocumentFaults):
            raise
        raise MovingFault(not_ours(file=file.name)) from None


def _site_file(head: Mapping[str, Any], values: Iterable[Mapping[str, Any]]) -> SiteFile:
    document, rows = None, {table.name: list[Row]() for table in TABLES}
    named: dict[str, dict[str, str]] = {"person": {}, "weather_station": {}}
    for value in values:
        if "document" in value:
            document = read_document(value["document"])
        elif (kind := next(iter(value), "")) in named:
            named[kind][str(value[kind]["id"])] = str(value[kind]["name"])
        else:
            if value["row"]["site"] != head["site"]:
                raise ValueError("a row of another site")
            rows[value["table"]].append(value["row"])
    if document is None or document.site.id != head["site"]:
        raise ValueError("no document of this site")
    return SiteFile(head["site"], tuple(head["steps"]), document, named["person"], named["weather_station"], rows)


def _checked(lines: list[bytes], name: str) -> list[dict[str, Any]]:
    """The lines' values without the last, which vouches for them."""
    if not lines:
        raise MovingFault(not_ours(file=name))
    try:
        values = [json.loads(line) for line in lines]
    except ValueError:
        whole = lines[0].startswith(b'{"pengan":')
        raise MovingFault((damaged if whole else not_ours)(file=name)) from None
    if not all(isinstance(value, dict) for value in values):
        raise MovingFault(not_ours(file=name))
    sums = hashlib.sha256(b"".join(lines[:-1])).hexdigest()
    if values[-1] != {"lines": len(lines) - 1, "sha256": sums}:
        raise MovingFault((damaged if "pengan" in values[0] else not_ours)(file=name))
    return values[:-1]


def _line(value: object) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode() + b"\n"
