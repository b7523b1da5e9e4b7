"""The steps of `python3 tests`, the quick ones first."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from ground.house import PWA, ROOT, program
from ground.node import Node, find_node

from .tally import Tally, of_pytest, of_vitest, whole

WORKERS = "3"
"""One more than the two cores that runs are measured on: many tests wait for a disk, a browser or another process."""


@dataclass(frozen=True)
class Step:
    """One check. Its output is shown as it comes where `shows`, otherwise only when it fails."""

    name: str
    command: tuple[str, ...]
    folder: Path = ROOT
    environment: dict[str, str] = field(default_factory=lambda: dict(os.environ))
    count: Callable[[int], Tally] = whole
    shows: bool = False

    def run(self) -> Tally:
        """Run it to its end and count."""
        caught = None if self.shows else subprocess.PIPE
        done = subprocess.run(
            self.command,
            cwd=self.folder,
            env=self.environment,
            stdin=subprocess.DEVNULL,
            stdout=caught,
            stderr=subprocess.STDOUT,
            text=True,
        )
        tally = self.count(done.returncode)
        if not tally.is_good() and done.stdout:
            sys.stdout.write(done.stdout)
        return tally


def every_step(reports: Path) -> list[Step]:
    """All of them; runners leave their reports in the folder `reports`."""
    return [*_python_checks(), *_page_checks(reports, find_node()), tests_step(reports, [])]


def _python_checks() -> list[Step]:
    ruff, mypy = str(program("ruff")), str(program("mypy"))
    return [
        Step("Python format", (ruff, "format", "--check", ".")),
        Step("Python lint", (ruff, "check", ".")),
        Step("Python types", (mypy, "--strict", "server")),
    ]


def _page_checks(reports: Path, node: Node) -> list[Step]:
    quiet = {**node.environment(), "NO_COLOR": "1"}

    def npm(name: str, *words: str, count: Callable[[int], Tally] = whole) -> Step:
        return Step(name, (*node.npm, "run", "--silent", *words), PWA, quiet, count)

    report = reports / "vitest.json"
    vitest = ("test", "--", "--reporter=default", "--reporter=json", f"--outputFile.json={report}")
    return [
        npm("page format and lint", "lint"),
        npm("page types", "types"),
        npm("page tests", *vitest, count=lambda code: of_vitest(report, code)),
    ]


def tests_step(reports: Path, words: list[str]) -> Step:
    """Pytest over everything, or over what `words` name."""
    report = reports / "pytest.xml"
    pytest = (str(program("python")), "-m", "pytest", "-q", "-n", WORKERS, "--dist", "worksteal", "--durations=10")
    return Step(
        "tests",
        (*pytest, f"--junitxml={report}", *words),
        environment=_with_node_on_path(reports / "programs"),
        count=lambda code: of_pytest(report, code),
        shows=True,
    )


def _with_node_on_path(folder: Path) -> dict[str, str]:
    """Tests that run JavaScript find the Node that checks the page, be it from PATH or from the wheel."""
    folder.mkdir()
    (folder / "node").symlink_to(find_node().node)
    return {**os.environ, "PATH": f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"}
