"""Answers come compressed to whoever takes gzip, and stay the same answers."""

from __future__ import annotations

import gzip
import json
from pathlib import Path

import pytest
from flask import Flask, Response
from flask.testing import FlaskClient

from pengan.web.settings import Settings

GZIP = {"Accept-Encoding": "gzip, br"}
DOCUMENT = "/api/sites/quinta-das-mares/document"


def test_a_document_shrinks_and_is_the_same(client: FlaskClient) -> None:
    plain, packed = client.get(DOCUMENT), client.get(DOCUMENT, headers=GZIP)
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) * 4 < len(plain.data) and int(packed.headers["Content-Length"]) == len(packed.data)
    assert {"Accept-Encoding", "Cookie"} <= {part.strip() for part in packed.headers["Vary"].split(",")}


@pytest.mark.parametrize("wish", ["", "identity", "br", "gzip;q=0", "deflate"])
def test_who_does_not_take_gzip_is_not_sent_it(client: FlaskClient, wish: str) -> None:
    answer = client.get(DOCUMENT, headers={"Accept-Encoding": wish})
    assert "Content-Encoding" not in answer.headers and json.loads(answer.data)
    assert "Accept-Encoding" in answer.headers["Vary"]


def test_a_browser_that_has_the_compressed_answer_is_not_sent_it_again(client: FlaskClient) -> None:
    """The two forms have one tag, a weak one for the compressed (RFC 9110, section 8.8.1)."""
    tag = client.get(DOCUMENT, headers=GZIP).headers["ETag"]
    assert tag.startswith("W/")
    for words in (GZIP, {}):
        assert client.get(DOCUMENT, headers={**words, "If-None-Match": tag}).status_code == 304


def test_small_answers_stay_as_they_are(client: FlaskClient) -> None:
    assert "Content-Encoding" not in client.get("/health", headers=GZIP).headers


def test_files_of_the_page_are_compressed_too(client: FlaskClient, settings: Settings) -> None:
    script = Path(settings.app) / "assets" / "large-1234.js"
    script.write_text("start();\n" * 1000, "utf-8")
    answer = client.get("/assets/large-1234.js", headers=GZIP)
    assert gzip.decompress(answer.data) == script.read_bytes()
    assert answer.headers["Cache-Control"].startswith("public") or "immutable" in answer.headers["Cache-Control"]


def test_a_part_of_a_file_is_sent_as_it_is(client: FlaskClient, settings: Settings) -> None:
    (Path(settings.app) / "assets" / "large-1234.js").write_text("start();\n" * 1000, "utf-8")
    answer = client.get("/assets/large-1234.js", headers={**GZIP, "Range": "bytes=0-999"})
    assert (answer.status_code, len(answer.data), answer.headers.get("Content-Encoding")) == (206, 1000, None)


def test_an_event_stream_is_never_held_back(app: Flask, client: FlaskClient) -> None:
    @app.get("/stream")
    def stream() -> Response:
        return Response(("data: 1\n\n" for _event in range(500)), mimetype="text/event-stream")

    answer = client.get("/stream", headers=GZIP)
    assert "Content-Encoding" not in answer.headers and answer.data.count(b"data") == 500


def test_what_sets_a_cookie_is_not_compressed(app: Flask, client: FlaskClient) -> None:
    @app.get("/entered")
    def entered() -> Response:
        answer = Response("x" * 5000, mimetype="text/plain")
        answer.set_cookie("pengan", "token")
        return answer

    assert "Content-Encoding" not in client.get("/entered", headers=GZIP).headers
