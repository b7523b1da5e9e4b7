"""From the text of a file to JSON values, or to the one fault that stops reading it.

Stricter than Python's own reader, as RFC 8259 is: no NaN or Infinity, no name twice in one object.
"""

from __future__ import annotations

import json
from typing import Never

from ..message import Message, saying
from .fault import DocumentFaults, Fault

NOT_UTF8 = saying("fault.not_utf8", "This file is not text in UTF-8 (the byte at {place} is none).")
NOT_JSON = saying("fault.not_json", "This file is not JSON: reading stops at line {line}, column {column}.")
NOT_FINITE = saying("fault.not_finite", "{given} is not a number JSON knows.")
NAME_TWICE = saying("fault.name_twice", "The name {name} stands twice in one object.")
TOO_DEEP = saying("fault.too_deep", "Lists and objects are nested too deep. Records hold plain fields only.")
TOO_LONG_NUMBER = saying("fault.too_long_number", "A number in this file has too many digits.")


def data_in(text: str | bytes) -> object:
    """The JSON value in a text. Raises `DocumentFaults` where it holds none."""
    decoded = _decoded(text) if isinstance(text, bytes) else text
    try:
        return json.loads(decoded.removeprefix("\ufeff"), parse_constant=_not_finite, object_pairs_hook=_object)
    except json.JSONDecodeError as fault:
        raise _faults(NOT_JSON(line=fault.lineno, column=fault.colno)) from fault
    except RecursionError as fault:
        raise _faults(TOO_DEEP()) from fault
    except DocumentFaults:
        raise
    except ValueError as fault:  # CPython refuses to read whole numbers of thousands of digits
        raise _faults(TOO_LONG_NUMBER()) from fault


def _decoded(text: bytes) -> str:
    try:
        return text.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise _faults(NOT_UTF8(place=fault.start)) from fault


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    made: dict[str, object] = {}
    for name, value in pairs:
        if name in made:
            raise _faults(NAME_TWICE(name=name))
        made[name] = value
    return made


def _not_finite(given: str) -> Never:
    raise _faults(NOT_FINITE(given=given))


def _faults(message: Message) -> DocumentFaults:
    return DocumentFaults([Fault(None, None, None, message)])
