"""The engine gathered for the phone: `pengan/engine` with the packages `tzdata` and `astral`, in one zip.

The page's build turns it into what Pyodide loads (see `pwa/build/planner`). Equal sources give equal bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from .fault import GroundFault, _
from .house import PWA, ROOT

ARCHIVE = PWA / "generated" / "planner" / "engine.zip"
SOURCES = ("server/pengan/__init__.py", "server/pengan/engine")
CARRIED = ("astral", "tzdata")
_SERVER = ROOT / "server"
_NO_DATE = (1980, 1, 1, 0, 0, 0)
_LEFT_OUT = {".pyc", ".tab", ".zi"}
"""Beside what Python compiled: the zone data as tables for people and for other readers than the engine."""


def gather_engine(archive: Path = ARCHIVE) -> Path:
    """Write the zip where it is missing or its content has changed. Raises GroundFault where a package is missing."""
    archive.parent.mkdir(parents=True, exist_ok=True)
    fresh = archive.with_suffix(".new")
    with ZipFile(fresh, "w", ZIP_STORED) as packed:
        for name, file in sorted(_entries()):
            packed.writestr(ZipInfo(name, _NO_DATE), file.read_bytes())
    if archive.is_file() and archive.read_bytes() == fresh.read_bytes():
        fresh.unlink()
    else:
        fresh.replace(archive)
    return archive


def _entries() -> Iterator[tuple[str, Path]]:
    places = [(ROOT / source, _SERVER) for source in SOURCES]
    for start, root in [*places, *((folder, folder.parent) for folder in map(_package_folder, CARRIED))]:
        for file in [start] if start.is_file() else start.rglob("*"):
            if file.is_file() and file.suffix not in _LEFT_OUT:
                yield file.relative_to(root).as_posix(), file


def _package_folder(package: str) -> Path:
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        raise GroundFault(_("The package {package} is missing.", package=package))
    return Path(spec.origin).parent
