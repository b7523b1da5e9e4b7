"""Works nights out and prints their sheets, one canonical JSON a line: the same script on CPython and in Pyodide.

    write_sheets.py EFFORT FILE=YYYY-MM-DD…

It imports nothing but the engine and the standard library.
"""

import json
import sys
from collections.abc import Iterable, Iterator
from datetime import date

from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet_json import dumps


def sheets(effort: int, nights: Iterable[str]) -> Iterator[str]:
    """The sheet of each `FILE=DATE`, as text."""
    for night in nights:
        file, day = night.rsplit("=", 1)
        with open(file, encoding="utf-8") as text:
            document = read_document(json.load(text))
        yield dumps(plan_night(document, date.fromisoformat(day), effort=effort))


if __name__ == "__main__":
    sys.stdout.write("\n".join(sheets(int(sys.argv[1]), sys.argv[2:])) + "\n")
