"""Running the checks: each step with its time, then one table, then one closing line that counts them all."""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic

from ground.fault import GroundFault
from ground.house import ROOT, VENV, program
from ground.install import ensure_installed
from ground.node import find_node
from ground.start import hand_over
from ground.web_app import install_packages

from .steps import Step, every_step, tests_step
from .tally import Tally


def run(words: list[str]) -> int:
    """Set up, go on in `.venv`'s own Python, and return the exit code: 0 only where every step passed."""
    began = monotonic()
    try:
        ensure_installed(["test"])
        if Path(sys.prefix) != VENV:
            return hand_over([str(program("python")), str(ROOT / "tests"), *words])
        install_packages(find_node())
    except GroundFault as fault:
        print(fault, file=sys.stderr)
        return 1
    if words[:1] == ["--benchmarks"]:
        return hand_over([str(program("python")), str(ROOT / "tests" / "benchmarks"), *words[1:]])
    with TemporaryDirectory() as folder:
        steps = [tests_step(Path(folder), words)] if words else every_step(Path(folder))
        return _run_steps(steps, began)


def _run_steps(steps: list[Step], began: float) -> int:
    total, lines = Tally(), []
    for step in steps:
        start = monotonic()
        tally = step.run()
        line = f"{'ok' if tally.is_good() else 'FAILED':8}{step.name:24}{monotonic() - start:7.1f} s"
        print(line, flush=True)
        lines.append(line)
        total += tally
    print("\n" + "\n".join(lines))
    print(f"{'':8}{'everything':24}{monotonic() - began:7.1f} s")
    print(total.closing_line(), flush=True)
    return 0 if total.is_good() else 1
