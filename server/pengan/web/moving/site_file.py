"""One site with all its history in one file, to be taken to another server: text, one JSON value a line.

    {"pengan": "site", "format": 1, "site": "park", "steps": ["0004"], "written_at": 1795600000}
    {"document": {"format": 1, "records": […]}}          what the server serves, and the engine reads
    {"person": {"id": …, "name": …}}                     whom the history names
    {"weather_station": {"id": …, "name": …}}            what else it names: whatever sent weather
    {"reporter": {"id": …, "name": …}}                   and what told the journal
    {"table": "edits", "row": {…}}                       the rows behind it: records, removed ones too, edits, trays,
                                                         the journal and photos, alarms and what was learned of flows,
                                                         the rests of nights that were accepted
    {"lines": 812, "sha256": "…"}                        of all the lines before

Night sheets, notices and the queue do not travel: they are worked out anew. Nor do roles and devices: the site gets a
team of the other server's own, and the people, weather stations and reporters named stay in it as names without rights.
Nor do orders to shut a valve: whoever holds it hears of them from the server that gave them, or not at all.

A journal may be long: its rows are written and read as they come, never all at once.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

from sqlalchemy import Connection, Table, select, text
from sqlalchemy.orm import Session

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document

from ..alarms.models import Alarm, AlarmLook, LearnedFlow, Watched, WatchedNight
from ..catch_up.models import CaughtUp
from ..database import reading
from ..journal.models import JournalAside, JournalEntry, JournalHead, Reporter
from ..journal.names import PERSON, REPORTER
from ..need.models import NightWatering, WeatherStation
from ..people.models import Person
from ..photos.models import Photo
from ..sites.models import ROWS, SiteCopy
from ..sites.operations import document_in
from ..sync.models import Edit, Waiting
from ..used.models import USED
from .faults import MovingFault, damaged, newer, not_ours
from .rows import Row, rows_of
from .steps import Stored, is_known

KIND = "site"
FORMAT = 1
WATCHED = (Watched, Alarm, AlarmLook, LearnedFlow, WatchedNight)
"""What the watch has noticed and learned. Tied to no site, so that it does not go with one."""
TABLES: tuple[Table, ...] = (
    cast(Table, SiteCopy.__table__),
    *ROWS.values(),
    cast(Table, Edit.__table__),
    cast(Table, Waiting.__table__),
    cast(Table, NightWatering.__table__),
    cast(Table, JournalHead.__table__),
    cast(Table, CaughtUp.__table__),
    *(cast(Table, watch.__table__) for watch in WATCHED),
    *(cast(Table, used.__table__) for used in USED),
)
LONG: tuple[Table, ...] = tuple(cast(Table, long.__table__) for long in (JournalEntry, JournalAside, Photo))
"""Tables whose rows stay in the file until they are needed."""
NAMED: tuple[tuple[str, type[Person] | type[WeatherStation] | type[Reporter]], ...] = (
    ("person", Person),
    ("weather_station", WeatherStation),
    ("reporter", Reporter),
)


@dataclass(frozen=True, slots=True)
class SiteFile:
    """What a site's file holds: document, names by id of people, stations and reporters, and rows by their table."""

    site: str
    steps: tuple[str, ...]
    document: Document
    people: Mapping[str, str]
    weather_stations: Mapping[str, str]
    reporters: Mapping[str, str]
    rows: Mapping[str, list[Row]] = field(repr=False)
    file: Path

    def stored(self) -> Stored:
        """The rows, table by table; those of long tables out of the file."""
        held: Stored = {name: rows.__iter__ for name, rows in self.rows.items()}
        return {**held, **{table.name: _reader(self.file, table.name) for table in LONG}}


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
    for table in (*TABLES, *LONG):
        for row in rows_of(line, table, site):
            yield {"table": table.name, "row": row}


def _named(line: Connection, site: str) -> Iterator[tuple[str, str, str]]:
    """Everybody and everything that the site's history, trays and journal name."""
    columns = (
        (Edit.person, Edit.site),
        (Edit.decided_by, Edit.site),
        (Waiting.closed_by, Waiting.site),
        (JournalEntry.by, JournalEntry.site),
        (JournalAside.by, JournalAside.site),
        (Alarm.explained_by, Alarm.site),
        (Alarm.ended_by, Alarm.site),
        (AlarmLook.person, AlarmLook.site),
        (CaughtUp.by, CaughtUp.site),
    )
    found = {name for column, of in columns for name in line.scalars(select(column).distinct().where(of == site))}
    ids = sorted({name.removeprefix(PERSON).removeprefix(REPORTER) for name in found if name})
    for kind, table in NAMED:
        named = select(table.id, table.name).where(table.id.in_(ids)).order_by(table.id)
        for row in line.execute(named).all():
            yield kind, row.id, row.name


def read_site(file: Path) -> SiteFile:
    """A site's file, checked whole. Raises `MovingFault`, `OSError`, and `DocumentFaults` with every fault."""
    _check(file)
    try:
        values = _values_in(file)
        head = next(values)
        if not isinstance(head.get("format"), int):
            raise ValueError("no format")
        if head["format"] > FORMAT or not is_known(head.get("steps", ())):
            raise MovingFault(newer(file=file.name))
        return _site_file(file, head, values)
    except (KeyError, TypeError, ValueError) as fault:
        if isinstance(fault, DocumentFaults):
            raise
        raise MovingFault(not_ours(file=file.name)) from None


def _site_file(file: Path, head: Mapping[str, Any], values: Iterable[Mapping[str, Any]]) -> SiteFile:
    document, rows = None, {table.name: list[Row]() for table in TABLES}
    named: dict[str, dict[str, str]] = {kind: {} for kind, _table in NAMED}
    long = {table.name for table in LONG}
    for value in values:
        if "document" in value:
            document = read_document(value["document"])
        elif (kind := next(iter(value), "")) in named:
            named[kind][str(value[kind]["id"])] = str(value[kind]["name"])
        elif value["row"]["site"] != head["site"]:
            raise ValueError("a row of another site")
        elif value["table"] not in long:
            rows[value["table"]].append(value["row"])
    if document is None or document.site.id != head["site"]:
        raise ValueError("no document of this site")
    people, stations, reporters = named.values()
    return SiteFile(head["site"], tuple(head["steps"]), document, people, stations, reporters, rows, file)


def _check(file: Path) -> None:
    """Whether the last line vouches for all before it, read line by line."""
    sums, count, last = hashlib.sha256(), 0, b""
    with file.open("rb") as lines:
        ours = lines.readline().startswith(b'{"pengan":"' + KIND.encode() + b'"')
        lines.seek(0)
        for line in lines:
            sums.update(last)
            last, count = line, count + 1
    if not ours:
        raise MovingFault(not_ours(file=file.name))
    try:
        whole = json.loads(last) == {"lines": count - 1, "sha256": sums.hexdigest()}
    except ValueError:
        whole = False
    if not whole:
        raise MovingFault(damaged(file=file.name))


def _values_in(file: Path) -> Iterator[dict[str, Any]]:
    """The lines' values without the last. Raises `ValueError` for what is no object."""
    with file.open("rb") as lines:
        before = lines.readline()
        for line in lines:
            value = json.loads(before)
            if not isinstance(value, dict):
                raise ValueError("a line that is no object")
            yield value
            before = line


def _reader(file: Path, table: str) -> Callable[[], Iterator[Row]]:
    """Reads a long table's rows, passing over all other lines by how they begin."""
    start = _line({"table": table})[:-2]

    def read() -> Iterator[Row]:
        with file.open("rb") as lines:
            for line in lines:
                if line.startswith(start):
                    yield json.loads(line)["row"]

    return read


def _line(value: object) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode() + b"\n"
