"""What can be wrong with what a person typed, said so that they can put it right."""

from __future__ import annotations

from ..engine.message import Message, saying

NOT_A_NUMBER = saying("words.not_a_number", "“{text}” is not a number.")
NOT_A_DURATION = saying("words.not_a_duration", "“{text}” is not a length of time. Write it like 48, 1 h 20 or 0:48.")
UNKNOWN_UNIT = saying("words.unknown_unit", "“{text}” has a unit that is not known here. Known: {units}.")
UNKNOWN_CHOICE = saying("words.unknown_choice", "“{text}” is not one of: {choices}.")
NOT_A_DATE = saying("words.not_a_date", "“{text}” is not a date. Write it like {example}.")


class WordsFault(ValueError):
    """Something typed cannot be understood. `message` says what, in no language yet."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message
