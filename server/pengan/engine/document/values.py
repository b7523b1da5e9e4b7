"""One value of one field: is it what the field's `Kind` allows?"""

from __future__ import annotations

import json
import math
from collections.abc import Callable

from ..message import Message, saying
from .fields import Kind
from .limits import outside
from .written import CLOCK, ID, MONTH_DAY, TEXT, fits, is_date, is_moment

LONGEST_SHOWN = 60

NOT_TEXT = saying("fault.not_text", "This must be text, but it is {given}.")
NOT_NUMBER = saying("fault.not_number", "This must be a number, but it is {given}.")
NOT_WHOLE = saying("fault.not_whole", "This must be a whole number, but it is {given}.")
EMPTY = saying("fault.empty", "This must not be empty.")
TOO_LONG = saying("fault.too_long", "This may have at most {most} characters, but it has {long}.")
CONTROL = saying("fault.control", "This holds characters that are not text: {given}.")
NOT_CHOICE = saying("fault.not_choice", "{given} is not known here. Known are: {choices}.")
NOT_ID = saying("fault.not_id", "{given} is no id. An id is made of letters without accents, digits, “-”, “_” and “.”.")
NOT_CLOCK = saying(
    "fault.not_clock",
    "{given} is no time of day. Write it as {clock_example}, or as {sun_example}.",
)
NOT_DATE = saying("fault.not_date", "{given} is no date of the calendar. Write it as {example}.")
NOT_MONTH_DAY = saying("fault.not_month_day", "{given} is no day of the year. Write month and day as {example}.")
NOT_MOMENT = saying("fault.not_moment", "{given} is no local date and time. Write it as {example}.")


def shown(value: object) -> str:
    """A value as it stands in the file, cut where it is long. Never raises, however odd or deep the value."""
    try:
        full = json.dumps(value, ensure_ascii=False)
    except (TypeError, ValueError, RecursionError):
        full = f"<{type(value).__name__}>"
    full = full.encode("utf-8", "replace").decode("utf-8")
    return full if len(full) <= LONGEST_SHOWN else full[: LONGEST_SHOWN - 1] + "…"


def read_value(kind: Kind, given: object) -> tuple[object, Message | None]:
    """The value as the dataclass holds it, or what is wrong with it."""
    if kind.name in ("whole", "number"):
        return _read_number(kind, given)
    if not isinstance(given, str):
        return None, NOT_TEXT(given=shown(given))
    return given, _fault_of_text(kind, given)


def _read_number(kind: Kind, given: object) -> tuple[object, Message | None]:
    if isinstance(given, bool) or not isinstance(given, (int, float)) or not math.isfinite(_bounded(given)):
        return None, NOT_NUMBER(given=shown(given))
    if kind.name == "whole" and int(given) != given:
        return None, NOT_WHOLE(given=shown(given))
    low = kind.least is not None and given < kind.least
    high = kind.most is not None and given > kind.most
    if low or high:
        return None, outside(kind, given, shown(given))
    return (int(given) if kind.name == "whole" else float(given)), None


def _bounded(given: float) -> float:
    """The number, or 0 for a whole number too large for a float (it is finite, and far outside any limit)."""
    return 0.0 if isinstance(given, int) else given


def _fault_of_text(kind: Kind, given: str) -> Message | None:
    if kind.required and not given.strip():
        return EMPTY()
    if kind.most is not None and len(given) > kind.most:
        return TOO_LONG(most=int(kind.most), long=len(given))
    return _CHECKS[kind.name](kind, given)


def _text(kind: Kind, given: str) -> Message | None:
    return None if fits(TEXT, given) and _encodes(given) else CONTROL(given=shown(given))


def _encodes(given: str) -> bool:
    """Whether it can be written as UTF-8: a lone half of a surrogate pair cannot."""
    return not any("\ud800" <= mark <= "\udfff" for mark in given)


def _choice(kind: Kind, given: str) -> Message | None:
    if given in kind.choices:
        return None
    return NOT_CHOICE(given=shown(given), choices=", ".join(kind.choices))


def _id(kind: Kind, given: str) -> Message | None:
    return None if fits(ID, given) else NOT_ID(given=shown(given))


def _clock(kind: Kind, given: str) -> Message | None:
    if fits(CLOCK, given):
        return None
    return NOT_CLOCK(given=shown(given), clock_example="21:30", sun_example="sunset-00:30")


def _date(kind: Kind, given: str) -> Message | None:
    return None if is_date(given) else NOT_DATE(given=shown(given), example="2026-11-25")


def _month_day(kind: Kind, given: str) -> Message | None:
    return None if fits(MONTH_DAY, given) else NOT_MONTH_DAY(given=shown(given), example="11-25")


def _moment(kind: Kind, given: str) -> Message | None:
    return None if is_moment(given) else NOT_MOMENT(given=shown(given), example="2026-11-25T21:30")


_CHECKS: dict[str, Callable[[Kind, str], Message | None]] = {
    "text": _text,
    "choice": _choice,
    "id": _id,
    "ref": _id,
    "clock": _clock,
    "date": _date,
    "month_day": _month_day,
    "moment": _moment,
}
