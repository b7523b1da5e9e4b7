"""Files that the build has compressed are sent as they lie there, to whoever takes them."""

from __future__ import annotations

import gzip
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from pengan.web.settings import Settings

CODE = b"\0asm" * 5000
ADDRESS = "/planner/pyodide-1234/python.wasm"


@pytest.fixture
def pressed(settings: Settings) -> Path:
    """A file in three forms. What stands for Brotli's is short and not Brotli: the server never looks into it."""
    file = settings.app / ADDRESS[1:]
    file.parent.mkdir(parents=True)
    file.write_bytes(CODE)
    file.with_name("python.wasm.br").write_bytes(b"pressed by brotli")
    file.with_name("python.wasm.gz").write_bytes(gzip.compress(CODE))
    (settings.app / "planner" / "planner.json").write_text('{"version": "1"}', "utf-8")
    return file


@pytest.mark.parametrize(
    ("wish", "coding"),
    [("gzip, deflate, br, zstd", "br"), ("gzip", "gzip"), ("br;q=0, gzip", "gzip"), ("zstd", None), ("", None)],
)
def test_the_smallest_form_that_is_welcome_is_sent(
    client: FlaskClient, pressed: Path, wish: str, coding: str | None
) -> None:
    answer = client.get(ADDRESS, headers={"Accept-Encoding": wish})
    form = {"br": b"pressed by brotli", "gzip": gzip.compress(CODE), None: CODE}[coding]
    assert (answer.headers.get("Content-Encoding"), answer.data) == (coding, form)
    assert answer.mimetype == "application/wasm"
    assert "Accept-Encoding" in answer.headers["Vary"]
    assert "immutable" in answer.headers["Cache-Control"]


def test_a_form_that_is_there_already_is_not_sent_again(client: FlaskClient, pressed: Path) -> None:
    words = {"Accept-Encoding": "br"}
    tag = client.get(ADDRESS, headers=words).headers["ETag"]
    assert client.get(ADDRESS, headers={**words, "If-None-Match": tag}).status_code == 304
    assert client.get(ADDRESS, headers={"Accept-Encoding": "gzip"}).headers["ETag"] != tag


def test_the_list_of_the_planner_is_asked_for_anew_each_time(client: FlaskClient, pressed: Path) -> None:
    answer = client.get("/planner/planner.json")
    assert (answer.json, answer.headers["Cache-Control"]) == ({"version": "1"}, "no-cache")


def test_a_missing_file_of_the_planner_is_not_answered_with_the_page(client: FlaskClient) -> None:
    assert client.get("/planner/engine-9999.zip").status_code == 404
