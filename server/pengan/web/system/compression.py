"""Answers shrunk on their way, for whoever says that gzip is welcome (RFC 9110, content codings).

Only what is text and large enough to gain from it. Not what sets a cookie: a secret beside text that somebody else
chose must not be measurable by its size (the attack known as BREACH; it also needs requests that another site's page
makes in the reader's name, which the cookie's SameSite=Strict rules out). Not streams: an event has to leave at once.
Files of the page change only with their names, so each is compressed once.
"""

from __future__ import annotations

import gzip
from functools import lru_cache

from flask import Flask, Response, request

LEAST_BYTES = 800
LEVEL = 5
KINDS = ("text/", "application/json", "application/problem+json", "application/javascript", "image/svg+xml")
WASM = "application/wasm"
LARGEST_FILE = 4 * 1024 * 1024


def compress_answers(app: Flask) -> None:
    """Compress the answers of the app."""
    app.after_request(_compressed)


def _compressed(response: Response) -> Response:
    if not _worth_it(response):
        return response
    response.vary.add("Accept-Encoding")
    if request.accept_encodings["gzip"] <= 0 or request.method == "HEAD":
        return response
    body = _body(response)
    if body is None:
        return response
    response.set_data(body)
    response.headers["Content-Encoding"] = "gzip"
    tag, weak = response.get_etag()
    if tag is not None and not weak:
        response.set_etag(tag, weak=True)
    return response


def _worth_it(response: Response) -> bool:
    """Whether this kind of answer is ever compressed."""
    return (
        response.status_code in (200, 201, 400, 404, 422)
        and (response.mimetype or "").startswith((*KINDS, WASM))
        and response.mimetype != "text/event-stream"
        and "Content-Encoding" not in response.headers
        and "Set-Cookie" not in response.headers
        and (response.content_length or LEAST_BYTES) >= LEAST_BYTES
    )


def _body(response: Response) -> bytes | None:
    """The body compressed; None for a stream, and for a file too large to hold."""
    if response.direct_passthrough:
        if (response.content_length or LARGEST_FILE + 1) > LARGEST_FILE:
            return None
        response.direct_passthrough = False
        tag = response.get_etag()[0]
        return _once(tag, response.get_data()) if tag else gzip.compress(response.get_data(), LEVEL, mtime=0)
    if response.is_streamed:
        return None
    body = response.get_data()
    return gzip.compress(body, LEVEL, mtime=0) if len(body) >= LEAST_BYTES else None


@lru_cache(maxsize=64)
def _once(_tag: str, body: bytes) -> bytes:
    """A file's bytes, compressed the first time it is asked for."""
    return gzip.compress(body, mtime=0)
