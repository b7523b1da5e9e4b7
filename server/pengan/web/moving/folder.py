"""A backup's folder: a file of rows for each table, and a manifest with their checksums.

    manifest.json            what there is, and the checksums
    site_copies.jsonl.gz     one row a line, as JSON, in the order of the table's key
    …

The same for every kind of database. The folder and its files can be read by their owner alone: devices' tokens and
passwords are in it as hashes, people's names as they are.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import zlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, BinaryIO, cast

from .faults import MovingFault, damaged, newer, no_backup, not_ours
from .rows import Row
from .steps import Stored, is_known

FORMAT = 1
KIND = "backup"
MANIFEST = "manifest.json"
OWNER_ONLY = 0o600


@dataclass(frozen=True, slots=True)
class Part:
    """One table's file."""

    table: str
    rows: int
    bytes: int
    sha256: str

    @property
    def file(self) -> str:
        """The file's name."""
        return f"{self.table}.jsonl.gz"


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup holds: the steps its tables had taken, when it was made (seconds since 1970Z), and its files."""

    steps: tuple[str, ...]
    made_at: int
    parts: tuple[Part, ...]


def write_part(folder: Path, table: str, rows: Iterable[Row]) -> Part:
    """Write one table's file, down to the disk."""
    count, part = 0, Part(table, 0, 0, "")
    with _private(folder / part.file) as file:
        with gzip.GzipFile(filename="", fileobj=file, mode="wb", compresslevel=6, mtime=0) as packed:
            for row in rows:
                packed.write(_line(row))
                count += 1
        _to_disk(file)
    content = folder / part.file
    return Part(table, count, content.stat().st_size, _checksum(content))


def write_manifest(folder: Path, manifest: Manifest) -> None:
    """Write the manifest, last of all: a folder without one is no backup."""
    body: dict[str, Any] = {"pengan": KIND, "format": FORMAT, **asdict(manifest)}
    with _private(folder / MANIFEST) as file:
        file.write(json.dumps({**body, "sha256": _sum_of(body)}, indent=1).encode())
        _to_disk(file)


def read_manifest(folder: Path) -> Manifest:
    """The manifest, and every file against it. Raises `MovingFault` where anything is missing, damaged or newer."""
    try:
        body = json.loads((folder / MANIFEST).read_bytes())
    except FileNotFoundError:
        raise MovingFault(no_backup(folder=str(folder), file=MANIFEST)) from None
    except ValueError:
        raise MovingFault(damaged(file=MANIFEST)) from None
    if not isinstance(body, dict) or body.get("pengan") != KIND or not isinstance(body.get("format"), int):
        raise MovingFault(not_ours(file=MANIFEST))
    if body["format"] > FORMAT:
        raise MovingFault(newer(file=MANIFEST))
    if body.pop("sha256", None) != _sum_of(body):
        raise MovingFault(damaged(file=MANIFEST))
    manifest = Manifest(tuple(body["steps"]), body["made_at"], tuple(Part(**part) for part in body["parts"]))
    if not is_known(manifest.steps):
        raise MovingFault(newer(file=MANIFEST))
    for part in manifest.parts:
        _check(folder, part)
    return manifest


def rows_in(folder: Path, manifest: Manifest) -> Stored:
    """The rows of each table, read as they are asked for."""
    return {part.table: _reader(folder / part.file) for part in manifest.parts}


def _reader(file: Path) -> Callable[[], Iterator[Row]]:
    def read() -> Iterator[Row]:
        try:
            with gzip.open(file, "rb") as packed:
                for line in packed:
                    yield json.loads(line)
        except (OSError, EOFError, ValueError, zlib.error):
            raise MovingFault(damaged(file=file.name)) from None

    return read


def _check(folder: Path, part: Part) -> None:
    try:
        whole = _checksum(folder / part.file) == part.sha256
    except OSError:
        whole = False
    if not whole:
        raise MovingFault(damaged(file=part.file))


def _private(file: Path) -> BinaryIO:
    """A new file that its owner alone can read."""
    return cast(BinaryIO, os.fdopen(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY | _BINARY, OWNER_ONLY), "wb"))


_BINARY = getattr(os, "O_BINARY", 0)


def _to_disk(file: BinaryIO) -> None:
    file.flush()
    os.fsync(file.fileno())


def _line(row: Row) -> bytes:
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode() + b"\n"


def _checksum(file: Path) -> str:
    with file.open("rb") as content:
        return hashlib.file_digest(content, "sha256").hexdigest()


def _sum_of(body: object) -> str:
    return hashlib.sha256(json.dumps(body, sort_keys=True).encode()).hexdigest()
