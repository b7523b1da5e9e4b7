"""Fingerprints of files, by which a second start knows that nothing has changed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path

_NOT_OURS = {"node_modules", "__pycache__", "generated", "dist"}


def fingerprint(root: Path, parts: Iterable[str]) -> str:
    """A hash over the names and bytes of the files at or under `parts` of `root`, in a fixed order."""
    seal = hashlib.sha256()
    for path in _files(root, parts):
        seal.update(path.relative_to(root).as_posix().encode())
        seal.update(hashlib.sha256(path.read_bytes()).digest())
    return seal.hexdigest()


def _files(root: Path, parts: Iterable[str]) -> Iterator[Path]:
    for part in parts:
        start = root / part
        yield from [start] if start.is_file() else _under(start)


def _under(folder: Path) -> Iterator[Path]:
    if not folder.is_dir():
        return
    for path in sorted(folder.iterdir()):
        if path.name in _NOT_OURS or path.suffix in {".pyc", ".mo", ".tsbuildinfo"}:
            continue
        if path.is_dir():
            yield from _under(path)
        else:
            yield path
