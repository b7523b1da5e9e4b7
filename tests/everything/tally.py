"""Counting what passed and what failed, over test runners that each report in their own way."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Tally:
    """How many tests (or whole checks) passed, failed and were skipped."""

    passed: int = 0
    failed: int = 0
    skipped: int = 0

    def __add__(self, other: Tally) -> Tally:
        return Tally(self.passed + other.passed, self.failed + other.failed, self.skipped + other.skipped)

    def is_good(self) -> bool:
        """Something ran and nothing failed."""
        return self.passed > 0 and self.failed == 0

    def closing_line(self) -> str:
        """The last line of a run."""
        skipped = f", {self.skipped} skipped" if self.skipped else ""
        return f"{self.passed} passed, {self.failed} failed{skipped}"


def whole(exit_code: int) -> Tally:
    """A check that passes or fails as one."""
    return Tally(passed=1) if exit_code == 0 else Tally(failed=1)


def of_pytest(report: Path, exit_code: int) -> Tally:
    """Out of pytest's JUnit file. A run that broke before it wrote one, or ran no test, has failed."""
    if not report.is_file():
        return Tally(failed=1)
    suites = list(ElementTree.parse(report).getroot().iter("testsuite"))

    def count(name: str) -> int:
        return sum(int(suite.get(name, "0")) for suite in suites)

    failed, skipped = count("failures") + count("errors"), count("skipped")
    return Tally(count("tests") - failed - skipped, failed or int(exit_code != 0), skipped)


def of_vitest(report: Path, exit_code: int) -> Tally:
    """Out of Vitest's JSON file."""
    if not report.is_file():
        return Tally(failed=1)
    said = json.loads(report.read_text("utf-8"))
    failed = int(said["numFailedTests"])
    return Tally(int(said["numPassedTests"]), failed or int(exit_code != 0), int(said["numPendingTests"]))
