"""Photos: kept once, whole, of a bounded size and a known type, for those who work at the site alone."""

from __future__ import annotations

import base64
import hashlib
import struct
import zlib
from threading import Barrier, Thread
from typing import Any
from uuid import uuid4

import pytest
from flask.testing import FlaskClient
from sqlalchemy import func, select
from werkzeug.test import TestResponse

from pengan.web.moving.load import load_site
from pengan.web.moving.site_file import read_site, write_site
from pengan.web.photos import operations
from pengan.web.photos.looking import MOST_BYTES
from pengan.web.photos.models import Photo
from web.people.crew import BESIDE, SITE, Server

JPEG = b"\xff\xd8\xff\xe0" + b"wet grass" * 200 + b"\xff\xd9"


def a_png() -> bytes:
    """A picture of one grey point, by ISO/IEC 15948."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(b"\0\x80")) + chunk(b"IEND", b"")


def a_webp() -> bytes:
    inner = b"WEBPVP8 " + struct.pack("<I", 4) + b"abcd"
    return b"RIFF" + struct.pack("<I", len(inner)) + inner


def digest(content: bytes) -> str:
    return f"sha-256=:{base64.b64encode(hashlib.sha256(content).digest()).decode()}:"


def put(client: FlaskClient, content: bytes = JPEG, kind: str = "image/jpeg", **more: Any) -> TestResponse:
    """Send a photo. `id`, `site`, `headers` and `query` may be given."""
    path = f"/api/sites/{more.get('site', SITE)}/photos/{more.get('id') or uuid4()}"
    return client.put(
        path, data=content, content_type=kind, headers=more.get("headers"), query_string=more.get("query")
    )


def code(answer: TestResponse) -> tuple[int, str]:
    return answer.status_code, answer.json["code"]


def kept(server: Server) -> int:
    with server.shared.database.session() as session:
        return session.scalar(select(func.count()).select_from(Photo)) or 0


@pytest.mark.parametrize(
    ("content", "kind"),
    [(JPEG, "image/jpeg"), (a_png(), "image/png"), (a_webp(), "image/webp")],
    ids=["jpeg", "png", "webp"],
)
def test_a_photo_comes_back_as_it_was_sent(server: Server, content: bytes, kind: str) -> None:
    crew, id = server.person("crew"), str(uuid4())
    sent = put(crew, content, kind, id=id, headers={"Content-Digest": digest(content)})
    assert (sent.status_code, sent.json) == (200, {"id": id, "outcome": "taken"})
    got = server.person("lead", name="Rui").get(f"/api/sites/{SITE}/photos/{id}")
    assert (got.status_code, got.data, got.mimetype) == (200, content, kind)
    again = crew.get(f"/api/sites/{SITE}/photos/{id}", headers={"If-None-Match": got.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_sent_twice_is_kept_once(server: Server) -> None:
    crew, id, before = server.person("crew"), str(uuid4()), kept(server)
    outcomes = [put(crew, id=id).json["outcome"] for _ in range(3)]
    assert (outcomes, kept(server) - before) == (["taken", "known", "known"], 1)


def test_sent_over_two_lines_at_once_is_kept_once(server: Server) -> None:
    crew, id, before, start = server.person("crew"), str(uuid4()), kept(server), Barrier(4)
    clients, answers = [server.browser() for _ in range(4)], list[TestResponse]()
    for client in clients:
        cookie = crew.get_cookie("pengan")
        assert cookie is not None
        client.set_cookie("pengan", cookie.value)

    def send(client: FlaskClient) -> None:
        start.wait()
        answers.append(put(client, id=id))

    threads = [Thread(target=send, args=(client,)) for client in clients]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(answer.json["outcome"] for answer in answers) == ["known", "known", "known", "taken"]
    assert kept(server) - before == 1


def test_another_under_the_same_id_is_turned_away_and_the_first_stays(server: Server) -> None:
    crew, id = server.person("crew"), str(uuid4())
    put(crew, id=id)
    assert code(put(crew, JPEG[:-2] + b"x\xff\xd9", id=id)) == (409, "photos.id_taken")
    assert crew.get(f"/api/sites/{SITE}/photos/{id}").data == JPEG


@pytest.mark.parametrize(
    ("content", "kind"),
    [(JPEG, "image/jpeg"), (a_png(), "image/png"), (a_webp(), "image/webp")],
    ids=["jpeg", "png", "webp"],
)
@pytest.mark.parametrize("share", [0.3, 0.9])
def test_half_a_photo_is_turned_away_by_how_it_ends(server: Server, content: bytes, kind: str, share: float) -> None:
    before = kept(server)
    half = content[: max(12, int(len(content) * share))]
    assert code(put(server.person("crew"), half, kind)) == (422, "photos.half")
    assert kept(server) == before


def test_a_photo_that_changed_on_the_way_is_turned_away_by_its_sum(server: Server) -> None:
    changed = JPEG[:50] + b"X" + JPEG[51:]
    crew = server.person("crew")
    assert code(put(crew, changed, headers={"Content-Digest": digest(JPEG)})) == (422, "photos.other_sum")
    assert code(put(crew, JPEG, headers={"Content-Digest": "sha-256=nonsense"})) == (422, "photos.other_sum")


@pytest.mark.parametrize(
    ("content", "kind", "expected"),
    [
        (b"<svg onload='x()'/>", "image/jpeg", (422, "photos.no_picture")),
        (b"", "image/jpeg", (422, "photos.no_picture")),
        (a_png(), "image/jpeg", (422, "photos.other_kind")),
        (b"<svg/>", "image/svg+xml", (415, "web.body_type")),
        (JPEG[:-2] + b"x" * MOST_BYTES + b"\xff\xd9", "image/jpeg", (413, "web.body_too_large")),
    ],
    ids=["markup", "nothing", "another kind", "a kind not taken", "too large"],
)
def test_what_is_no_photo_is_turned_away_whatever_it_is_called(
    server: Server, content: bytes, kind: str, expected: tuple[int, str]
) -> None:
    assert code(put(server.person("crew"), content, kind)) == expected


@pytest.mark.parametrize("id", ["short", "with space here", "x" * 65, "dots.are.none"])
def test_an_id_is_letters_digits_and_dashes(server: Server, id: str) -> None:
    assert code(put(server.person("crew"), id=id)) == (422, "photos.bad_id")


def test_who_does_not_work_there_neither_sends_nor_sees_one(server: Server) -> None:
    id = str(uuid4())
    put(server.person("crew"), id=id)
    nobody, stranger = server.browser(), server.person("manager", BESIDE, "Zoe")
    for client, expected in ((nobody, 401), (stranger, 404)):
        assert client.get(f"/api/sites/{SITE}/photos/{id}").status_code == expected
        assert put(client).status_code == expected
    assert put(server.person("crew", name="Eva"), site=BESIDE).status_code == 404


def test_nobody_elses_photo_is_sent(server: Server) -> None:
    assert code(put(server.person("crew"), query={"person": "somebody"})) == (401, "photos.other_person")


def test_a_site_keeps_so_many(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    crew, id = server.person("crew"), str(uuid4())
    put(crew, id=id)
    monkeypatch.setattr(operations, "MOST_PHOTOS", kept(server))
    assert code(put(crew)) == (409, "photos.too_many")
    assert put(crew, id=id).json["outcome"] == "known"


def test_photos_travel_with_their_site(server: Server, tmp_path: Any) -> None:
    id, file = str(uuid4()), tmp_path / "site.pengan"
    put(server.person("crew"), a_png(), "image/png", id=id)
    with server.shared.database.session() as session:
        write_site(session, SITE, file, 1)
        session.rollback()
        with session.begin():
            session.delete(session.get_one(Photo, (SITE, id)))
        load_site(session, read_site(file), 1, replace=True)
        found = session.get_one(Photo, (SITE, id))
    assert (found.content, found.kind) == (a_png(), "image/png")
