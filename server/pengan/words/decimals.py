"""Numbers in a language's digits and signs, by CLDR's patterns."""

from __future__ import annotations

from decimal import Decimal

from babel.numbers import format_decimal

from .languages import locale_of

_FOUR_DIGITS_WHOLE = frozenset({"es", "es-ES", "pt-PT", "pl"})
"""Languages that write 4512 but 45.120: CLDR's minimumGroupingDigits is 2. From memory, as Babel does not carry it."""


def decimal_text(value: Decimal | int | float, language: str, pattern: str | None = None) -> str:
    """The number as people of that language write it."""
    grouped = not -10_000 < value < 10_000 or language not in _FOUR_DIGITS_WHOLE
    text = format_decimal(value, format=pattern, locale=locale_of(language), group_separator=grouped)
    return str(text)
