"""A second start knows by fingerprints whether anything has changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from ground.fingerprint import fingerprint


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "pwa" / "src").mkdir(parents=True)
    (tmp_path / "pwa" / "src" / "start.tsx").write_text("start")
    (tmp_path / "pyproject.toml").write_text("[project]")
    return tmp_path


def seal(folder: Path) -> str:
    return fingerprint(folder, ("pwa", "pyproject.toml", "not-there"))


@pytest.mark.parametrize(
    "change",
    [
        lambda folder: (folder / "pyproject.toml").write_text("[tool]"),
        lambda folder: (folder / "pwa" / "src" / "new.ts").write_text(""),
        lambda folder: (folder / "pwa" / "src" / "start.tsx").rename(folder / "pwa" / "src" / "begin.tsx"),
        lambda folder: (folder / "pwa" / "src" / "start.tsx").unlink(),
    ],
    ids=["other words", "a new file", "another name", "a file less"],
)
def test_it_changes_with_its_sources(folder: Path, change: Callable[[Path], object]) -> None:
    before = seal(folder)
    change(folder)
    assert seal(folder) != before


def test_it_stays_when_only_what_is_made_from_them_changes(folder: Path) -> None:
    before = seal(folder)
    for made in ("node_modules", "generated", "__pycache__"):
        (folder / "pwa" / made).mkdir()
        (folder / "pwa" / made / "file.js").write_text("made")
    for made in ("tsconfig.tsbuildinfo", "words.mo", "start.pyc"):
        (folder / "pwa" / "src" / made).write_text("made")
    (folder / "pwa" / "src" / "start.tsx").touch()
    assert seal(folder) == before
