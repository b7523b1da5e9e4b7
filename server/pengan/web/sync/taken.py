"""Who wants to know when a site's document has changed: called inside the transaction that changes it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sqlalchemy.orm import Session

from .arriving import Arriving

Listener = Callable[[Session, str, int, Sequence[Arriving]], None]
"""Given the session, the site, the document's new revision and the edits that are now in force."""

_listeners: list[Listener] = []


def on_taken(listener: Listener) -> Listener:
    """Have `listener` called for every set of edits that is taken. May decorate a function; asking twice is once."""
    if listener not in _listeners:
        _listeners.append(listener)
    return listener


def tell_taken(session: Session, site: str, revision: int, edits: Sequence[Arriving]) -> None:
    """Tell everybody who asked. Whatever a listener raises undoes the transaction: nothing is half taken."""
    for listener in _listeners:
        listener(session, site, revision, edits)
