"""The CPythons of this machine that the engine must run on: 3.11 and every newer one that PATH leads to."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

OLDEST = (3, 11)
NAME = re.compile(r"python3\.\d+")
ASK = "import sys; print(sys.implementation.name, *sys.version_info[:2])"


def interpreters() -> dict[str, str]:
    """One program for each version, by `3.N`: this Python first, then what PATH names `python3.N`."""
    found = {".".join(map(str, sys.version_info[:2])): sys.executable}
    for program in _candidates():
        version = _version(program)
        if version is not None:
            found.setdefault(version, str(program))
    return dict(sorted(found.items(), key=lambda item: tuple(map(int, item[0].split(".")))))


def _candidates() -> Iterator[Path]:
    """Everything on PATH with such a name; behind a folder of shims, the versions it chooses from."""
    for place in map(Path, os.environ.get("PATH", "").split(os.pathsep)):
        folders = [place, *sorted((place.parent / "versions").glob("*/bin"))] if place.name == "shims" else [place]
        for folder in folders:
            yield from sorted(program for program in folder.glob("python3.*") if NAME.fullmatch(program.name))


def _version(program: Path) -> str | None:
    """`3.N` if the program is a CPython that starts and is new enough; None for shims that lead nowhere."""
    done = subprocess.run([program, "-c", ASK], capture_output=True, text=True, check=False, timeout=30)
    words = done.stdout.split()
    if done.returncode or words[:1] != ["cpython"] or (int(words[1]), int(words[2])) < OLDEST:
        return None
    return f"{words[1]}.{words[2]}"
