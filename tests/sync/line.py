"""The line between a phone and the server: it can lose a request, lose a reply, double, delay and reorder.

What travels is bytes, so a request that was caught on its way can be delivered later, twice, or never.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from enum import Enum
from typing import Any

from flask import Flask

Row = dict[str, Any]
PROTOCOL = "Pengan-Protocol"
LOGIN_PAGE = b"<!doctype html><title>Hotel Bela Vista</title>Welcome! Please accept our terms."


class Delivery(Enum):
    """What becomes of one request."""

    SOUND = "arrives, and so does the reply"
    LOST = "never arrives"
    REPLY_LOST = "arrives; the reply does not"
    DOUBLED = "arrives twice; the second reply comes back"
    LATE = "is held up, and arrives when somebody lets it through; the phone has given up by then"
    LOGIN_PAGE = "is answered by a hotel's login page with a status of 200"


@dataclass(frozen=True)
class Reply:
    """What came back. `body` is None where it is not JSON."""

    status: int
    ours: bool
    body: Any

    def is_an_answer(self) -> bool:
        """Whether a phone may act on it. Everything else means: keep and try again."""
        return self.status == 200 and self.ours and isinstance(self.body, dict)


@dataclass(frozen=True)
class Request:
    """One request on its way."""

    path: str
    body: bytes
    token: str


NO_REPLY = Reply(0, False, None)


class Line:
    """The way to one server. `held_up` are requests that have not arrived yet."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        self.held_up: list[Request] = []

    def send(self, request: Request, delivery: Delivery = Delivery.SOUND) -> Reply:
        """Send a request in one of the ways above, and hand back what the phone gets to see."""
        if delivery is Delivery.LOGIN_PAGE:
            return Reply(200, False, None)
        if delivery is Delivery.LATE:
            self.held_up.append(request)
        if delivery in (Delivery.LATE, Delivery.LOST):
            return NO_REPLY
        if delivery is Delivery.DOUBLED:
            self.deliver(request)
        reply = self.deliver(request)
        return NO_REPLY if delivery is Delivery.REPLY_LOST else reply

    def deliver(self, request: Request) -> Reply:
        """The request arrives. Safe to call from several threads."""
        client = self.app.test_client()
        if request.token:
            client.set_cookie("pengan", request.token)
        answer = client.post(request.path, data=request.body, content_type="application/json")
        ours = answer.headers.get(PROTOCOL) == "1" and answer.mimetype in ("application/json", PROBLEM)
        assert answer.status_code < 500, answer.get_data(as_text=True)
        return Reply(answer.status_code, ours, json.loads(answer.data) if ours else None)


PROBLEM = "application/problem+json"
