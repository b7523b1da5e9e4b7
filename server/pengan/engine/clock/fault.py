"""The one error of local time: something written that cannot be read as a clock, a rule or a time."""

from __future__ import annotations

from ..message import Message


class ClockFault(ValueError):
    """Raised with a coded `message`, and the document field it is about where that is known."""

    def __init__(self, message: Message, field: str = "") -> None:
        super().__init__(message.code, dict(message.params))
        self.message = message
        self.field = field
