"""What people type is read the same by Python and by the page: both are held to one table."""

from __future__ import annotations

import json
from pathlib import Path

from pengan.words import Reader, WordsFault, read, read_duration

TABLE = Path(__file__).parents[2] / "fixtures" / "units" / "read.json"
TYPED = {
    "flow": ("240", "1,5 m³/h", "1.5 m3/h", "20 gpm", "20 imp gpm", "12.5 l/s", "1.250", "1,250", "1 234,5", "٢٤٠",
             "۱۲٫۵ L/min", "२४०", "90 litres per minute", "12 cubits", "abc", "", "1.2.3", "-5", "3 US gpm", "−4,5"),
    "area": ("1.5 ha", "900", "900 sq ft", "2 acres", "1'200"),
    "pressure": ("3,5", "50 psi", "350 kPa"),
    "depth": ('1/2"', "0.5 in", "12,7 mm"),
    "duration": ("48", "1 h 20", "1h20m", "0:48", "1:20:30", "1,5 h", "90 s", "0:75", "5 min 1 h", "min",
                 "1 h 20 min 5 s", "٤٨", "1.5", "0,0001", "", "48 fortnights", "9000 h"),
}  # fmt: skip
READERS = (("en-GB", "metric"), ("en-US", "us"), ("es", "metric"), ("en-GB", "imperial"))


def rows() -> list[list[object]]:
    """Language, unit set, what is measured, what was typed, and the amount in its base unit or the fault's code."""
    return [
        [language, units, quantity, text, _read(quantity, text, Reader(language, units))]
        for language, units in READERS
        for quantity, typed in TYPED.items()
        for text in typed
    ]


def _read(quantity: str, text: str, reader: Reader) -> float | str:
    try:
        return read_duration(text, reader) if quantity == "duration" else read(text, quantity, reader)
    except WordsFault as fault:
        return fault.message.code


def test_the_table_the_page_is_tested_on_is_what_python_reads() -> None:
    """If it is not, and should be: .venv/bin/python tests/words/test_read.py"""
    assert json.loads(TABLE.read_text(encoding="utf-8")) == rows()


if __name__ == "__main__":
    lines = ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows())
    TABLE.write_text(f"[\n{lines}\n]\n", encoding="utf-8")
