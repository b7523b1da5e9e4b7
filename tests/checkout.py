"""A fresh checkout in a folder of the test's, and starting Python in it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from ground.house import ROOT
from project.sources import our_files

NODE_PROGRAMS = {"node", "nodejs", "npm", "npx", "corepack"}
NOT_NEEDED = {"tests", "fixtures", ".ci"}


def check_out(folder: Path) -> Path:
    """What git keeps of the server, the page and the translations, copied to `folder`."""
    for path in our_files():
        if path.parts[0] not in NOT_NEEDED:
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / path, folder / path)
    return folder


def without_node(folder: Path) -> str:
    """A PATH on which everything of this machine lies but Node: links in `folder`, first come first kept."""
    folder.mkdir()
    for place in map(Path, os.environ["PATH"].split(os.pathsep)):
        for program in place.iterdir() if place.is_dir() else ():
            if program.name not in NODE_PROGRAMS and not os.path.lexists(folder / program.name):
                (folder / program.name).symlink_to(program)
    return str(folder)


def python(folder: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run this Python in the checkout; it imports from there and from `.venv`, and talks English."""
    return run([sys.executable, *words], folder, environment)


def run(command: list[str], folder: Path, environment: Mapping[str, str]) -> subprocess.CompletedProcess[str]:
    spoken = {"LANG": "C.UTF-8", "LC_ALL": "C.UTF-8", "PENGAN_LANGUAGE": "en"}
    return subprocess.run(
        command,
        cwd=folder,
        env={**os.environ, **spoken, **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=300,
    )
