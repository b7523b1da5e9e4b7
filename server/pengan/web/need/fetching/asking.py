"""One question to a weather service over HTTP: bounded in time, in size and in where it leads.

The only place of the server that calls somebody else. It follows no redirect, so that nobody can send it elsewhere.
"""

from __future__ import annotations

import time
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from email.message import Message
from http.client import HTTPException, HTTPResponse
from typing import IO
from urllib.error import HTTPError
from urllib.request import HTTPRedirectHandler, Request, build_opener

WAIT_S, WHOLE_S = 10, 30
"""For each sign of life, and for the whole answer."""
MOST_BYTES, MOST_UNPACKED = 2 * 2**20, 16 * 2**20
PIECE = 64 * 1024


class NoAnswer(Exception):
    """Nothing came, or too much, or too slowly, or something that is no HTTP."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What came: status, headers by their names in small letters, and the body as it was before packing."""

    status: int
    headers: Mapping[str, str]
    body: bytes


class _Staying(HTTPRedirectHandler):
    """Hands out a redirect as the answer it is."""

    def redirect_request(self, req: Request, fp: IO[bytes], code: int, msg: str, headers: Message, newurl: str) -> None:
        """No request follows."""


def ask(address: str, headers: Mapping[str, str], wait_s: float = WAIT_S, whole_s: float = WHOLE_S) -> Answer:
    """The answer to a GET, whatever its status. Raises `NoAnswer`."""
    until = time.monotonic() + whole_s
    question = Request(address, headers={**headers, "Accept": "application/json", "Accept-Encoding": "gzip"})
    try:
        try:
            with build_opener(_Staying).open(question, timeout=wait_s) as came:
                return _read(came, until)
        except HTTPError as refused:
            with refused:
                return _read(refused, until)
    except (OSError, HTTPException, zlib.error) as fault:
        raise NoAnswer(type(fault).__name__) from fault


def _read(came: HTTPResponse | HTTPError, until: float) -> Answer:
    headers = {name.lower(): value for name, value in came.headers.items()}
    body = bytearray()
    while piece := came.read1(PIECE):
        body += piece
        if len(body) > MOST_BYTES:
            raise NoAnswer("too much")
        if time.monotonic() > until:
            raise NoAnswer("too slow")
    packed = headers.get("content-encoding", "").lower() == "gzip"
    return Answer(came.status or 0, headers, _unpacked(bytes(body)) if packed else bytes(body))


def _unpacked(body: bytes) -> bytes:
    packer = zlib.decompressobj(wbits=31)
    unpacked = packer.decompress(body, MOST_UNPACKED)
    if packer.unconsumed_tail or not packer.eof:
        raise NoAnswer("too much, or cut off")
    return unpacked
