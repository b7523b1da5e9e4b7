"""What every way of sending has in common: entries as they are told, and what can go wrong."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence
from typing import Protocol

from pengan.engine.journal.entry import Entry
from pengan.engine.journal.reading import told
from pengan.engine.message import Message, saying

bad_token = saying("field.bad_token", "This is not the token of a reporter. A manager of the site makes one.")
turned_away = saying("field.turned_away", "{address} turned the entries away: {reason}")
unreachable = saying("field.unreachable", "{address} could not be reached: {reason}")


class SendingFault(Exception):
    """Nothing more can be sent. `message` says why, in no language yet."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message


class Sender(Protocol):
    """A way to a server. Entries that were sent before may be sent again: they are one entry."""

    def send(self, entries: Sequence[Entry]) -> Counter[str]:
        """How many entries met which end. Returns once the other side has them. Raises `SendingFault`."""

    def close(self) -> None:
        """Nothing more is sent."""


def body_of(entries: Sequence[Entry], **beside: str) -> bytes:
    """A message or request with these entries."""
    return json.dumps({**beside, "entries": [told(entry) for entry in entries]}, ensure_ascii=False).encode()


def reporter_in(token: str) -> str:
    """The reporter's id, which stands second in its token. Raises `SendingFault`."""
    parts = token.split(".")
    if len(parts) != 3 or not all(parts):
        raise SendingFault(bad_token())
    return parts[1]
