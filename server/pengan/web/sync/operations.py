"""What a phone asks of the server: hello, push, pull; and what people decide about edits that wait."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant

from ..people.rights import Actor

Sent = Mapping[str, Any]
"""A call as its schema read it."""


def hello(session: Session, actor: Actor | None, asked: Sent, now: Instant) -> dict[str, object]:
    """How the phone is to go on: ok, update_needed, start_over or signed_out."""
    raise NotImplementedError


def push(session: Session, actor: Actor, sent: Sent, now: Instant) -> dict[str, object]:
    """Judge the sets in the order in which they came, each in a transaction of its own; an answer for each edit."""
    raise NotImplementedError


def pull(session: Session, actor: Actor | None, asked: Sent) -> dict[str, object]:
    """A page of what has changed since the cursor, or of a fresh copy."""
    raise NotImplementedError


def revision_of(session: Session, actor: Actor | None, site: str) -> int:
    """The newest cursor there is."""
    raise NotImplementedError


def decide(session: Session, actor: Actor, site: str, edit: str, decision: str, now: Instant) -> dict[str, object]:
    """Accept or decline what is held (managers), or discard what waits otherwise; the whole set goes together."""
    raise NotImplementedError
