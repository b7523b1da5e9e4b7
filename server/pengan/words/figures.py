"""Plain numbers as people write them: decimal commas and points, grouping, every script's digits."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction

from babel.numbers import get_decimal_symbol, get_group_symbol

from .decimals import decimal_text
from .faults import NOT_A_NUMBER, WordsFault
from .reader import Reader

_SPACES = " \u00a0\u2009\u202f'’٬"
_MINUS = str.maketrans({"−": "-", "–": "-", "٫": ","})
_PLAIN = re.compile(r"[+-]?(\d+([.,]\d*)*|[.,]\d+)")


def write_figure(value: Fraction | float, places: int, reader: Reader) -> str:
    """A number with at most so many decimals, rounded half to even, in the reader's digits and signs."""
    exact = value if isinstance(value, Fraction) else Fraction(value)
    scaled = Decimal(round(exact * 10**places)).scaleb(-places)
    return decimal_text(scaled, reader.language, _pattern(places))


def _pattern(places: int) -> str:
    return "#,##0" + ("." + "#" * places if places else "")


def read_figure(text: str, reader: Reader) -> Fraction:
    """The number somebody typed, exactly.

    A lone `.` or `,` is the decimal sign, unless it is the reader's grouping sign and three digits follow:
    `1.250` is 1250 to a Spanish reader and 1.25 to an English one. Raises `WordsFault`.
    """
    plain = _with_plain_digits(text)
    if not _PLAIN.fullmatch(plain):
        raise WordsFault(NOT_A_NUMBER(text=text.strip()))
    whole, part = _split(plain, reader, text)
    return Fraction(Decimal(f"{whole or '0'}.{part or '0'}"))


def _with_plain_digits(text: str) -> str:
    kept = (letter for letter in text.strip().translate(_MINUS) if letter not in _SPACES)
    visible = (letter for letter in kept if unicodedata.category(letter) != "Cf")
    return "".join(str(unicodedata.digit(letter, letter)) for letter in visible)


def _split(plain: str, reader: Reader, text: str) -> tuple[str, str]:
    """Whole digits (with sign) and decimal digits."""
    marks = [mark for mark in plain if mark in ".,"]
    if not marks:
        return plain, ""
    last = marks[-1]
    groups = plain.split(last) if len(set(marks)) == 1 else None
    if groups and _is_grouped(groups, last, reader):
        return "".join(groups), ""
    head, _mark, part = plain.rpartition(last)
    if last in head or not _groups_hold(head):
        raise WordsFault(NOT_A_NUMBER(text=text.strip()))
    sign_only = head in {"", "+", "-"}
    return (f"{head}0" if sign_only else head.replace(",", "").replace(".", "")), part


def _is_grouped(groups: list[str], mark: str, reader: Reader) -> bool:
    """Whether a mark, the only kind in the text, groups thousands."""
    if not all(len(group) == 3 for group in groups[1:]) or not 1 <= len(groups[0].lstrip("+-")) <= 3:
        return False
    return len(groups) > 2 or mark == _grouping(reader) != _decimal(reader)


def _groups_hold(head: str) -> bool:
    groups = re.split(r"[.,]", head)
    return all(len(group) == 3 for group in groups[1:])


def _grouping(reader: Reader) -> str:
    return str(get_group_symbol(reader.locale)).replace("٬", ".")


def _decimal(reader: Reader) -> str:
    return str(get_decimal_symbol(reader.locale)).replace("٫", ",")
