"""The closing line of `python3 tests` counts honestly: a run that broke, or ran nothing, is no success."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from everything.tally import Tally, of_pytest, of_vitest, whole


def junit(folder: Path, **counts: int) -> Path:
    numbers = " ".join(f'{name}="{number}"' for name, number in counts.items())
    report = folder / "report.xml"
    report.write_text(f"<testsuites><testsuite {numbers}/></testsuites>")
    return report


def test_pytest_counts_come_from_its_report(tmp_path: Path) -> None:
    report = junit(tmp_path, tests=9, failures=1, errors=2, skipped=1)
    assert of_pytest(report, 1) == Tally(passed=5, failed=3, skipped=1)


@pytest.mark.parametrize("exit_code", [1, 2, 3, 4, 5])
def test_a_pytest_that_broke_has_failed_whatever_it_counted(tmp_path: Path, exit_code: int) -> None:
    assert not of_pytest(junit(tmp_path, tests=3, failures=0, errors=0, skipped=0), exit_code).is_good()
    assert not of_pytest(tmp_path / "none.xml", exit_code).is_good()


def test_a_run_of_no_test_is_not_good(tmp_path: Path) -> None:
    assert not of_pytest(junit(tmp_path, tests=0, failures=0, errors=0, skipped=0), 0).is_good()


@pytest.mark.parametrize(("failed", "exit_code", "good"), [(0, 0, True), (2, 1, False), (0, 1, False)])
def test_vitest_counts_come_from_its_report(tmp_path: Path, failed: int, exit_code: int, good: bool) -> None:
    report = tmp_path / "vitest.json"
    report.write_text(json.dumps({"numPassedTests": 4, "numFailedTests": failed, "numPendingTests": 1}))
    assert of_vitest(report, exit_code).is_good() is good


def test_the_closing_line_names_skipped_tests() -> None:
    assert (whole(0) + whole(1) + Tally(skipped=2)).closing_line() == "1 passed, 1 failed, 2 skipped"
    assert (whole(0) + whole(0)).closing_line() == "2 passed, 0 failed"
