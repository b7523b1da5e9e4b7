"""The engine as the phone runs it: packed, loaded into Pyodide (under Node), beside this Python in the same run."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zipfile import ZipFile

from golden.engine_zip import pack_engine
from golden.work_out import PHONE, PYODIDE, node

from . import phone_app
from .planted_nights import GOALS
from .table import Table, note, seconds

HERE = Path(__file__).resolve().parent
SCRIPT, NIGHTS = HERE / "phone_times.py", HERE.parent / "nights"
MOST_RATIO = 2
"""Goals on the phone are the native ones times this."""


def show() -> None:
    _planted()
    print()
    phone_app.show()


def _planted() -> None:
    sizes = [str(size) for size in GOALS]
    with TemporaryDirectory() as folder:
        zipped = _packed(Path(folder) / "engine.zip")
        size_kb = zipped.stat().st_size // 1000
        phone = _run([node(), str(PHONE), str(PYODIDE), str(zipped), str(SCRIPT), *sizes])
        native = _run([sys.executable, str(SCRIPT), *sizes], PYTHONPATH=str(zipped))
    table = Table(
        "On the phone: Pyodide under Node, beside this Python",
        ("stations", "first", "native", "times", "best", "native", "times", "reached"),
        8,
    )
    for size, (first_goal, best_goal, *_) in GOALS.items():
        ours, theirs = native[str(size)], phone[str(size)]
        if ours["finish"] != theirs["finish"]:
            raise AssertionError("the phone's plan is another one")
        good = theirs["first"] <= MOST_RATIO * first_goal and theirs["best"] <= MOST_RATIO * best_goal
        table.row(str(size), *_cells(theirs, ours, "first"), *_cells(theirs, ours, "best"), "yes" if good else "NO")
    note(f"Python was ready {phone['loaded_ms'] / 1000:.1f} s after Node; the engine's zip has {size_kb} kB.")
    note("reached: within twice the native goals.")


def _cells(theirs: dict[str, float], ours: dict[str, float], what: str) -> tuple[str, str, str]:
    return seconds(theirs[what]), seconds(ours[what]), f"{theirs[what] / ours[what]:.1f}"


def _packed(path: Path) -> Path:
    """The engine's zip with the made-up nights added."""
    pack_engine(path)
    with ZipFile(path, "a") as packed:
        for name in ("__init__", "sketch", "planted", "measure"):
            packed.write(NIGHTS / f"{name}.py", f"nights/{name}.py")
    return path


def _run(command: list[str], **environment: str) -> dict[str, Any]:
    done = subprocess.run(command, env={**os.environ, **environment}, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    measured: dict[str, Any] = json.loads(done.stdout)
    return measured
