"""The engine packed as the phone gets it: `pengan/engine` with the packages `tzdata` and `astral`, one zip."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

SERVER = Path(__file__).resolve().parents[2] / "server"
CARRIED = ("astral", "tzdata")


def pack_engine(zip_path: Path) -> Path:
    """Write the zip, and give its path back."""
    with ZipFile(zip_path, "w", ZIP_DEFLATED) as packed:
        packed.write(SERVER / "pengan" / "__init__.py", "pengan/__init__.py")
        for folder in (SERVER / "pengan" / "engine", *map(package_folder, CARRIED)):
            for file in _files(folder):
                root = SERVER if folder.is_relative_to(SERVER) else folder.parent
                packed.write(file, file.relative_to(root).as_posix())
    return zip_path


def package_folder(package: str) -> Path:
    """Where an installed package lies."""
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(package)
    return Path(spec.origin).parent


def _files(folder: Path) -> Iterator[Path]:
    return (file for file in sorted(folder.rglob("*")) if file.is_file() and "__pycache__" not in file.parts)
