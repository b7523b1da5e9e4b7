"""Amounts of money as people write them; CLDR gives the patterns."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from babel.numbers import format_currency

from .figures import write_figure
from .reader import Reader


def write_money(amount: Decimal, currency: str | None, reader: Reader) -> str:
    """An amount in a currency (ISO 4217), with as many decimals as that one has: `€12.50`. A figure where none is
    named."""
    if currency is None:
        return write_figure(Fraction(amount), 2, reader)
    return str(format_currency(amount, currency, locale=reader.locale))
