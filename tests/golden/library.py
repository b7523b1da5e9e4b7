"""Which modules of Python's library the engine loads in Pyodide, on Pyodide's whole library.

`python tests/golden/library.py` writes the list that the build packs, after a change of Pyodide or of an import.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIST = ROOT / "pwa" / "build" / "planner" / "library.txt"
TRACER = Path(__file__).with_name("library.mjs")
DONE_WITHOUT = ("ssl.py", "_ssl.py", "bz2.py", "lzma.py", "compression/")
"""What the library asks for and goes on without: TLS, and packing in forms that nobody uses here."""


def loaded() -> list[str]:
    """The files that are loaded after a start, the golden sites' nights, faulty documents and an error."""
    from golden.nights import NIGHTS
    from golden.work_out import PYODIDE, node
    from ground.engine_archive import gather_engine

    command = [node(), str(TRACER), str(PYODIDE), str(gather_engine()), *sorted({str(night.site) for night in NIGHTS})]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False, timeout=300)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    files: list[str] = json.loads(done.stdout)
    return sorted(file for file in files if not file.startswith(DONE_WITHOUT))


def listed() -> list[str]:
    """The files that the build packs."""
    return LIST.read_text("utf-8").split()


if __name__ == "__main__":
    sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "server")]
    LIST.write_text("".join(f"{file}\n" for file in loaded()), "utf-8", newline="\n")
    print(f"{len(listed())} files")
