"""A question is bounded in time, in size, and in where it leads."""

from __future__ import annotations

import gzip
import time
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler

import pytest

from pengan.web.need.fetching import asking
from pengan.web.need.fetching.asking import NoAnswer, ask
from web.need.fetching.pretend import Pretend, pretending, says


@pytest.fixture
def service() -> Iterator[Pretend]:
    with pretending() as made:
        yield made


def test_an_answer_has_its_status_headers_and_body(service: Pretend) -> None:
    service.reply(says(200, b"{}", Last_Modified="Fri, 10 Jul 2026 18:12:00 GMT"))
    answer = ask(service.address, {"User-Agent": "Pengan/1 water@example.org"})
    assert (answer.status, answer.body) == (200, b"{}")
    assert answer.headers["last-modified"] == "Fri, 10 Jul 2026 18:12:00 GMT"
    assert service.asked[0][1]["user-agent"] == "Pengan/1 water@example.org"
    assert service.asked[0][1]["accept-encoding"] == "gzip"


def test_a_packed_body_is_unpacked(service: Pretend) -> None:
    service.reply(says(200, gzip.compress(b"forecast"), Content_Encoding="gzip"))
    assert ask(service.address, {}).body == b"forecast"


@pytest.mark.parametrize("status", [304, 403, 404, 429, 500, 503])
def test_a_refusal_is_an_answer(service: Pretend, status: int) -> None:
    service.reply(says(status, Retry_After="120"))
    answer = ask(service.address, {})
    assert (answer.status, answer.headers["retry-after"]) == (status, "120")


@pytest.mark.parametrize("status", [301, 302, 303, 307, 308])
def test_a_redirect_is_not_followed(service: Pretend, status: int) -> None:
    service.reply(says(status, Location=f"{service.address}/elsewhere"))
    assert ask(service.address, {}).status == status
    assert len(service.asked) == 1


def test_a_body_too_large_is_not_read_to_its_end(service: Pretend, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "MOST_BYTES", 1000)
    service.reply(says(200, b"x" * 100_000))
    with pytest.raises(NoAnswer):
        ask(service.address, {})


def test_a_small_body_that_unpacks_to_a_huge_one_is_refused(service: Pretend, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "MOST_UNPACKED", 1000)
    service.reply(says(200, gzip.compress(b"x" * 1001), Content_Encoding="gzip"))
    with pytest.raises(NoAnswer):
        ask(service.address, {})


@pytest.mark.parametrize(
    "body",
    [gzip.compress(b"forecast", mtime=0)[:-4], b"no gzip", b""],
    ids=["cut off", "not packed", "empty"],
)
def test_a_packed_body_that_is_broken_is_refused(service: Pretend, body: bytes) -> None:
    service.reply(says(200, body, Content_Encoding="gzip"))
    with pytest.raises(NoAnswer):
        ask(service.address, {})


def _silent(asked: BaseHTTPRequestHandler) -> None:
    time.sleep(1)


def _dripping(asked: BaseHTTPRequestHandler) -> None:
    asked.wfile.write(b"HTTP/1.1 200 OK\r\nContent-Length: 1000\r\n\r\n")
    for _second in range(50):
        asked.wfile.write(b"x")
        asked.wfile.flush()
        time.sleep(0.05)


def _no_http(asked: BaseHTTPRequestHandler) -> None:
    asked.wfile.write(b"good evening\r\n\r\n")


def _cut_off(asked: BaseHTTPRequestHandler) -> None:
    asked.wfile.write(b"HTTP/1.1 200 OK\r\nContent-Length: 1000\r\nContent-Encoding: gzip\r\n\r\nxyz")


@pytest.mark.parametrize("reply", [_silent, _dripping, _no_http, _cut_off])
def test_silence_drops_and_nonsense_are_no_answer(service: Pretend, reply: object) -> None:
    service.reply(reply)  # type: ignore[arg-type]
    with pytest.raises(NoAnswer):
        ask(service.address, {}, wait_s=0.3, whole_s=0.3)


def test_nobody_there_is_no_answer() -> None:
    with pytest.raises(NoAnswer):
        ask("http://127.0.0.1:9/", {})
