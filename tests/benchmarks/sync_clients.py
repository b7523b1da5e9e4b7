"""Who asks the server in its benchmarks: phones that push and pull without a socket, and a writer of bare rows."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable
from itertools import count
from time import perf_counter
from typing import Any

from flask import Flask
from sqlalchemy import Engine, MetaData, insert
from werkzeug.test import EnvironBuilder

from builders import a_document_data, a_site, a_station, a_turn
from pengan.web.sync.models import Edit
from sync.world import Grounds, new_grounds

Row = dict[str, Any]
_numbers = count(1)


def a_site_of(app: Flask, stations: int) -> Grounds:
    """A site with that many stations, a turn for each, and little else."""
    names = [f"s{number}" for number in range(stations)]
    turns = [a_turn(station=name, position=place) for place, name in enumerate(names)]
    data = a_document_data(site=a_site(), stations=[a_station(name) for name in names], turns=turns)
    extra = [{"table": "hydrozones", "id": f"h{n}", "name": f"Bed {n}"} for n in range(17 if stations > 1000 else 0)]
    return new_grounds(app, {**data, "records": [*data["records"], *extra]})


class Asking:
    """One phone's requests, straight into the app."""

    def __init__(self, app: Flask, grounds: Grounds) -> None:
        self.app = app
        self.site = grounds.site
        self.cookie = f"pengan={grounds.members['ben'].token}"
        self.cursor: int | None = None
        self.scope: str | None = None

    def ask(self, path: str, body: Row) -> tuple[Row, int]:
        """The answer, and its size in bytes."""
        written = json.dumps(body).encode()
        environ = EnvironBuilder(path, method="POST", content_type="application/json").get_environ()
        environ |= {"wsgi.input": io.BytesIO(written), "CONTENT_LENGTH": str(len(written)), "HTTP_COOKIE": self.cookie}
        said: list[str] = []
        chunks: Iterable[bytes] = self.app(environ, lambda status, *_more: said.append(status))
        data = b"".join(chunks)
        close = getattr(chunks, "close", None)
        if close is not None:
            close()
        if not said[0].startswith("200"):
            raise AssertionError(f"{said[0]}: {data[:500]!r}")
        found: Row = json.loads(data)
        return found, len(data)

    def everything(self) -> tuple[list[Row], float, int]:
        """All pages of a pull, the seconds they took and their bytes."""
        asked: Row = {"site": self.site, "cursor": self.cursor, "scope": self.scope}
        pages: list[Row] = []
        took, bytes_ = 0.0, 0
        for _ in range(50):
            began = perf_counter()
            page, size = self.ask("/api/sync/pull", asked)
            took, bytes_ = took + perf_counter() - began, bytes_ + size
            pages.append(page)
            if page["next"] is None:
                break
            asked |= {"after": page["next"], "scope": page["scope"]}
        self.cursor, self.scope = pages[-1]["cursor"], pages[-1]["scope"]
        return pages, took, bytes_


class Client(Asking):
    """Pushes one set after the other; every edit of it has to be taken."""

    def __init__(self, app: Flask, grounds: Grounds, size: int, first: int = 0) -> None:
        super().__init__(app, grounds)
        self.size, self.first, self.version = size, first, 1

    def once(self) -> int:
        """One set: how many edits were taken."""
        number = next(_numbers)
        edits = [self._edit(f"{number}-{place}", place + self.first) for place in range(self.size)]
        sets = [{"id": f"set-{number}", "site": self.site, "edits": edits}]
        answers = self.ask("/api/sync/push", {"sets": sets})[0]["answers"]
        if [answer["outcome"] for answer in answers] != ["taken"] * self.size:
            raise AssertionError(answers)
        self.version += 1
        return self.size

    def _edit(self, id_: str, station: int) -> Row:
        """About as long as a phone writes it."""
        place = {"kind": "set", "table": "stations", "record": f"s{station}", "field": "flow_lpm"}
        now = {"was": 60 + (self.version - 1) % 9, "now": 60 + self.version % 9}
        return {
            "id": f"edit-{id_}",
            "seen": self.version,
            "format": 1,
            "phone_time": "2026-11-25T14:00",
            **place,
            **now,
        }


class Bare:
    """Inserts rows with the columns of the history, and commits: what the database does without us."""

    def __init__(self, engine: Engine, number: int, size: int) -> None:
        self.table = Edit.__table__.to_metadata(MetaData(), name="bare_edits")  # type: ignore[attr-defined]
        for constraint in list(self.table.foreign_key_constraints):
            self.table.constraints.remove(constraint)
        for index in self.table.indexes:
            index.name = f"bare_{index.name}"
        self.engine, self.site, self.size = engine, f"bare{number}", size
        self.table.create(engine, checkfirst=True)
        self.insert = insert(self.table)

    def once(self) -> int:
        """As many rows as a set has edits, in one transaction."""
        number = next(_numbers)
        with self.engine.begin() as line:
            line.execute(self.insert, [self._row(f"{number}-{place}", place) for place in range(self.size)])
        return self.size

    def _row(self, id_: str, place: int) -> Row:
        answer = '{"outcome":"taken","revision":123456,"version":123}'
        row = dict.fromkeys(column.name for column in self.table.columns)
        about = {"kind": "set", "record_table": "stations", "record": "s1", "field": "flow_lpm", "edit_set": "set-1"}
        values = {"seen": "12", "saw": 12, "was": "60", "now": "61", "before": "60", "format": 1, "version": 13}
        end = {"outcome": "taken", "answer": answer, "person": "ben-site", "phone_time": "2026-11-25T14:00", "at": 1}
        return row | about | values | end | {"site": self.site, "id": f"edit-{id_}", "revision": 1, "place": place}
