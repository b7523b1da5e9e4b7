"""Works the golden nights out elsewhere: in another CPython, or in Pyodide under Node."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from .nights import EFFORT, NIGHTS

HERE = Path(__file__).resolve().parent
SCRIPT, PHONE = HERE / "write_sheets.py", HERE / "phone.mjs"
PYODIDE = HERE.parents[1] / "pwa" / "node_modules" / "pyodide"


def in_cpython(program: str, unpacked_engine: Path) -> list[str]:
    """Each golden night's sheet from another interpreter, which sees nothing but the packed engine."""
    words = [str(EFFORT), *(f"{night.site}={night.day}" for night in NIGHTS)]
    environment = {**os.environ, "PYTHONPATH": str(unpacked_engine), "PYTHONHASHSEED": "random"}
    return _lines([program, "-s", str(SCRIPT), *words], environment)


def in_pyodide(zipped_engine: Path) -> list[str]:
    """Each golden night's sheet from Pyodide, which sees nothing but the packed engine."""
    words = [str(EFFORT), *(f"/given/{night.site.name}={night.day}" for night in NIGHTS)]
    files = sorted({str(night.site) for night in NIGHTS})
    return _lines([node(), str(PHONE), str(PYODIDE), str(zipped_engine), str(SCRIPT), *words, "--", *files])


def node() -> str:
    """Node from PATH, where `python3 tests` puts the one that builds the page."""
    found = shutil.which("node")
    if found is None or not PYODIDE.is_dir():
        raise FileNotFoundError("Node on PATH and pwa/node_modules/pyodide: run `python3 tests` once, or npm install")
    return found


def _lines(command: list[str], environment: dict[str, str] | None = None) -> list[str]:
    done = subprocess.run(command, env=environment, capture_output=True, text=True, encoding="utf-8", check=False)
    if done.returncode:
        raise RuntimeError(f"{Path(command[0]).name}: {done.stderr[-2000:]}")
    return done.stdout.splitlines()
