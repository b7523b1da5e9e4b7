"""Our own files, as the checks of the whole project see them."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SERVER = ROOT / "server"


@cache
def our_files() -> tuple[Path, ...]:
    """Every file that git keeps, or would keep if it were added now; paths from the root."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    paths = (Path(name) for name in listed.split("\0") if name)
    return tuple(sorted(path for path in paths if (ROOT / path).is_file()))


def our_texts() -> Iterator[tuple[Path, str]]:
    """The files that are text, with their text."""
    for path in our_files():
        try:
            yield path, (ROOT / path).read_text("utf-8")
        except UnicodeDecodeError:
            continue


@dataclass(frozen=True)
class Module:
    """One Python module under `server/`: its dotted name and its syntax tree."""

    name: str
    path: Path
    tree: ast.Module
    is_package: bool


@cache
def modules() -> tuple[Module, ...]:
    """All Python modules of the server."""
    return tuple(_module(path) for path in our_files() if path.parts[0] == "server" and path.suffix == ".py")


def _module(path: Path) -> Module:
    dotted = path.relative_to("server").with_suffix("").parts
    is_package = dotted[-1] == "__init__"
    name = ".".join(dotted[:-1] if is_package else dotted)
    return Module(name, path, ast.parse((ROOT / path).read_text("utf-8"), str(path)), is_package)


def imports(module: Module) -> Iterator[tuple[str, int]]:
    """What a module imports anywhere in it, as absolute names with the line. `from a import b` gives `a.b`."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = _absolute(module, node)
            yield from ((f"{base}.{alias.name}".lstrip("."), node.lineno) for alias in node.names)


def _absolute(module: Module, node: ast.ImportFrom) -> str:
    if not node.level:
        return node.module or ""
    parts = module.name.split(".")
    home = parts if module.is_package else parts[:-1]
    home = home[: len(home) - (node.level - 1)]
    return ".".join([*home, *([node.module] if node.module else [])])
