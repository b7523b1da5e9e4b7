"""Requests that another site's page made in our reader's browser are turned away before any route sees them.

Three fences, each enough where a browser keeps to it: the cookie is SameSite=Strict; the browser's own word about where
a request comes from (`Sec-Fetch-Site`, or `Origin` against the address asked) has to be ours; and a body has to be JSON
(`bodies.py`), which no form of another site can send without asking first.
"""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import Flask, request

from pengan.engine.message import saying

from .problems import Problem

READING = ("GET", "HEAD", "OPTIONS")
OURS = ("same-origin", "none")

from_elsewhere = saying("web.from_elsewhere", "This request came from another site's page and was not carried out.")


def turn_crossings_away(app: Flask) -> None:
    """Look at each request that would change something."""
    app.before_request(_look)


def _look() -> None:
    if request.method in READING:
        return
    origin = request.headers.get("Origin")
    said = request.headers.get("Sec-Fetch-Site")
    if (said is not None and said not in OURS) or (origin is not None and urlsplit(origin).netloc != request.host):
        raise Problem(403, from_elsewhere())
