"""Sends entries over HTTP with a reporter's token."""

from __future__ import annotations

import json
import ssl
import time
from collections import Counter
from collections.abc import Callable, Sequence
from http.client import HTTPException
from urllib.error import HTTPError, URLError
from urllib.request import HTTPRedirectHandler, HTTPSHandler, Request, build_opener

from pengan.engine.journal.entry import Entry

from .sending import SendingFault, body_of, turned_away, unreachable

ROUTE = "/api/journal/entries"
ATTEMPTS = 8
TIMEOUT_S = 30
LONGEST_PAUSE_S = 30.0
LATER = {408, 425, 429, 500, 502, 503, 504}
"""Answers after which the same request may succeed."""


class OverHttp:
    """A server's address, such as `https://water.example`, and a reporter's token."""

    def __init__(
        self,
        address: str,
        token: str,
        ca_file: str | None = None,
        sleep: Callable[[float], object] = time.sleep,
    ) -> None:
        self._address, self._token, self._sleep = address.rstrip("/"), token, sleep
        context = ssl.create_default_context(cafile=ca_file)
        self._open = build_opener(HTTPSHandler(context=context), _NoDetour()).open

    def send(self, entries: Sequence[Entry]) -> Counter[str]:
        """Tries again, ever later, where the server cannot be reached or asks for it."""
        body = body_of(entries)
        for attempt in range(ATTEMPTS):
            try:
                return self._sent(body)
            except HTTPError as fault:
                reason = f"{fault.code} {_detail(fault)}".strip()
                if fault.code not in LATER:
                    raise SendingFault(turned_away(address=self._address, reason=reason)) from None
            except (URLError, OSError, HTTPException) as fault:
                reason = str(getattr(fault, "reason", fault)) or type(fault).__name__
            if attempt < ATTEMPTS - 1:
                self._sleep(min(LONGEST_PAUSE_S, 2.0**attempt))
        raise SendingFault(unreachable(address=self._address, reason=reason))

    def close(self) -> None:
        """Each request is a line of its own."""

    def _sent(self, body: bytes) -> Counter[str]:
        headers = {"Authorization": f"Bearer {self._token}", "Content-Type": "application/json"}
        request = Request(self._address + ROUTE, body, headers, method="POST")
        with self._open(request, timeout=TIMEOUT_S) as answer:
            return _outcomes(answer.read(), self._address)


class _NoDetour(HTTPRedirectHandler):
    """A token is sent to the address it is meant for, and nowhere else."""

    def redirect_request(self, *_args: object, **_named: object) -> None:
        return None


def _outcomes(text: bytes, address: str) -> Counter[str]:
    try:
        return Counter(str(answer["outcome"]) for answer in json.loads(text)["answers"])
    except (ValueError, KeyError, TypeError):
        raise SendingFault(turned_away(address=address, reason=text[:80].decode("utf-8", "replace"))) from None


def _detail(fault: HTTPError) -> str:
    """What problem details say, in whatever language the server answers; else the status in words."""
    try:
        return str(json.loads(fault.read())["title"])
    except (ValueError, KeyError, TypeError, OSError, HTTPException):
        return str(fault.reason)
