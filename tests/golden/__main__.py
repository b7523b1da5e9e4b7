"""`python tests/golden` writes the golden sheets anew, after a change of the planner that is meant to change them."""

from __future__ import annotations

import sys
from pathlib import Path

TESTS = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(TESTS), str(TESTS.parent / "server")]

from golden.nights import EFFORT, NIGHTS  # noqa: E402  (the path comes first)
from golden.write_sheets import sheets  # noqa: E402

for night, text in zip(NIGHTS, sheets(EFFORT, [f"{night.site}={night.day}" for night in NIGHTS]), strict=True):
    night.sheet.parent.mkdir(exist_ok=True)
    changed = not night.sheet.exists() or night.sheet.read_text(encoding="utf-8") != f"{text}\n"
    night.sheet.write_text(f"{text}\n", encoding="utf-8", newline="\n")
    print(night.sheet.name, "changed" if changed else "as it was")
