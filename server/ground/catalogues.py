"""Compiling the translators' catalogues for the package and the page: in a build, or in `.venv`."""

from __future__ import annotations

from pengan.words.compiling import compile_all


def compile_catalogues() -> None:
    """Write `server/pengan/words/compiled/<language>.mo` and `pwa/generated/catalogues/<language>.json`."""
    compile_all()
