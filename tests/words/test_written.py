"""What people see is the same from Python and from the page: both are held to one table of amounts and times."""

from __future__ import annotations

import json
from itertools import product
from pathlib import Path

from pengan.words import Reader, write, write_duration

TABLE = Path(__file__).parents[2] / "fixtures" / "units" / "written.json"
LANGUAGES = ("en-GB", "es")
AMOUNTS = {
    "flow": (0, 0.5, 12.34, 240, 1234.5, 60_000),
    "volume": (0, 0.4, 999, 1000, 4512, 1_234_567, 12_345_678),
    "depth": (0.26, 12.7, 25.4), "length": (0.3, 12, 3048), "area": (12.5, 9999, 10_000, 123_456),
    "pressure": (100, 350, 689.4757), "temperature": (-3, 0, 19.25), "current": (0, 250, 1250),
    "speed": (0, 2.34, 12.5), "radiation": (0, 18.26, 30.1),
}  # fmt: skip
DURATIONS = (0, 10, 48 * 60, 4800, 4810, 3605, 90_000)


def rows() -> list[list[object]]:
    """Language, unit set, what is measured, the amount in its base unit, and how it is written."""
    found: list[list[object]] = []
    for language, units in product(LANGUAGES, ("metric", "us", "imperial")):
        reader = Reader(language, units)
        for quantity, bases in AMOUNTS.items():
            found += [[language, units, quantity, base, write(quantity, base, reader)] for base in bases]
    for language, seconds in product(LANGUAGES, DURATIONS):
        found.append([language, "metric", "duration", seconds, write_duration(seconds, Reader(language))])
    return found


def test_the_table_the_page_is_tested_on_is_what_python_writes() -> None:
    """If it is not, and should be: .venv/bin/python tests/words/test_written.py"""
    assert json.loads(TABLE.read_text(encoding="utf-8")) == rows()


if __name__ == "__main__":
    lines = ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows())
    TABLE.write_text(f"[\n{lines}\n]\n", encoding="utf-8")
