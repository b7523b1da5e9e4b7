"""The published cases hold in Pyodide as they do here: on the phone the same numbers come out."""

from __future__ import annotations

import subprocess
from pathlib import Path
from zipfile import ZipFile

from engine.need.bare_cases import FILES
from engine.need.need_cases import FIXTURES
from golden.engine_zip import pack_engine
from golden.work_out import PHONE, PYODIDE, node

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[2]


def packed_cases(path: Path) -> Path:
    """The engine as the phone gets it, with the cases and the tests that read them laid beside it."""
    pack_engine(path)
    with ZipFile(path, "a") as packed:
        for file in (
            *sorted(FIXTURES.glob("*.json")),
            HERE / "need_cases.py",
            *(HERE / f"{name}.py" for name in FILES),
        ):
            packed.write(file, file.relative_to(ROOT).as_posix())
    return path


def test_every_published_case_holds_in_pyodide(tmp_path: Path) -> None:
    archive = packed_cases(tmp_path / "engine.zip")
    words = [node(), str(PHONE), str(PYODIDE), str(archive), str(HERE / "bare_cases.py")]
    done = subprocess.run(words, capture_output=True, text=True, encoding="utf-8", check=False, timeout=120)
    assert done.returncode == 0, done.stderr[-2000:]
    ran = done.stdout.splitlines()
    print(f"{len(ran)} cases held in Pyodide")
    assert len(ran) > 90 and {line.split(".")[2] for line in ran} == set(FILES)
