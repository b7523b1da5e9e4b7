"""Edits in an old format are brought up to today's, one format at a time; those in a newer one have to wait.

An upgrader for every format that was ever accepted stays here for ever: a phone may come back after two winters.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from pengan.engine.document.tables import FORMAT

from .arriving import Arriving, as_sent, written

Upgrader = Callable[[Arriving], Arriving]
"""From an edit in one format to the same edit in the next. Given a copy; it need not set the format."""

_upgraders: dict[int, Upgrader] = {}


def upgrader(format_: int) -> Callable[[Upgrader], Upgrader]:
    """Declare the function that takes edits from this format to the next."""

    def declare(function: Upgrader) -> Upgrader:
        _upgraders[format_] = function
        return function

    return declare


def forget_upgrader(format_: int) -> None:
    """Take one back: for tests of formats that never were."""
    _upgraders.pop(format_, None)


def is_newer(edit: Arriving) -> bool:
    """Whether it is written in a format that this server does not know yet."""
    return edit.format > FORMAT


def upgraded(edit: Arriving) -> Arriving | None:
    """The edit in today's format, or None where its format was never one of ours."""
    if edit.format == FORMAT:
        return edit
    sent = edit.sent or written(as_sent(edit))
    while edit.format < FORMAT:
        step = _upgraders.get(edit.format)
        if step is None:
            return None
        edit = replace(step(edit), format=edit.format + 1)
    return replace(edit, sent=sent)
