"""Money as people write it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from pengan.words import Reader
from pengan.words.money import write_money


@pytest.mark.parametrize(
    ("language", "currency", "written"),
    [
        ("en", "EUR", "€1,234.50"),
        ("de", "EUR", "1.234,50\xa0€"),
        ("en", "JPY", "¥1,234"),
        ("es", None, "1234,5"),
    ],
)
def test_an_amount_has_its_currencys_sign_and_decimals(language: str, currency: str | None, written: str) -> None:
    assert write_money(Decimal("1234.50"), currency, Reader(language)) == written
