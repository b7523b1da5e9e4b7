"""What a rule reports when a plan breaks it."""

from __future__ import annotations

from dataclasses import dataclass

from ..message import Message


@dataclass(frozen=True, slots=True)
class Violation:
    """One limit broken: `subject` is the key of what breaks it, `second` the night's first second at which it does."""

    rule: str
    message: Message
    subject: str
    second: int
