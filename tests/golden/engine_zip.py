"""The engine packed for other interpreters: `pengan/engine` with the packages `tzdata` and `astral`, one zip."""

from __future__ import annotations

from pathlib import Path

from ground.engine_archive import gather_engine


def pack_engine(zip_path: Path) -> Path:
    """Write the zip, and give its path back."""
    return gather_engine(zip_path)
