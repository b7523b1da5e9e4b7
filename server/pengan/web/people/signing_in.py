"""Who is asking: the cookie's token, its device, its person. For routes alone; operations are handed an `Actor`."""

from __future__ import annotations

from flask import Response, after_this_request, g, request

from pengan.engine.message import saying

from ..extensions import now, session, shared
from ..problems import Problem
from .devices import actor_of
from .rights import Actor
from .spoken import reader_for
from .tokens import Token, read_token

COOKIE, COOKIE_TLS = "pengan", "__Host-pengan"
"""Browsers take a name that begins with `__Host-` only over TLS and only from this very host."""
DAY_S = 24 * 3600
LONGEST_DAYS = 400
"""Browsers keep no cookie for longer."""

signed_out = saying("people.signed_out", "You are not signed in on this device.")


def current_actor() -> Actor:
    """Whoever asks. Raises a 401 `Problem` where that is nobody the server knows."""
    actor = current_actor_if_any()
    if actor is None:
        raise Problem(401, signed_out())
    return actor


def current_actor_if_any() -> Actor | None:
    """Whoever asks, or None: for what is also open to people who have not signed in."""
    token = read_token(request.cookies.get(_name(), ""))
    return None if token is None else _actor_of(token)


def recognised(token: Token) -> Actor:
    """Who a token that was just handed out belongs to."""
    actor = _actor_of(token)
    if actor is None:
        raise Problem(401, signed_out())
    return actor


def _actor_of(token: Token) -> Actor | None:
    found = actor_of(session(), token, now(), shared().settings.device_days * DAY_S, request.remote_addr)
    if found is None:
        return None
    actor, visit_written = found
    g.own_reader = reader_for(actor.language, actor.units, actor.hour_cycle)
    if visit_written:
        send_token(token)  # the browser keeps it for as long again
    return actor


def send_token(token: Token) -> None:
    """Hand the token to the browser, where no script can read it and no other site's page can have it sent."""
    days = min(shared().settings.device_days, LONGEST_DAYS)

    @after_this_request
    def hand_out(response: Response) -> Response:
        response.set_cookie(
            _name(), str(token), max_age=days * DAY_S, secure=request.is_secure, httponly=True, samesite="Strict"
        )
        return response


def drop_token() -> None:
    """Take the token from the browser."""

    @after_this_request
    def take_back(response: Response) -> Response:
        response.delete_cookie(_name(), secure=request.is_secure, httponly=True, samesite="Strict")
        return response


def _name() -> str:
    return COOKIE_TLS if request.is_secure else COOKIE
