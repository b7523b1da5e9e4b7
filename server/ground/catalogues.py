"""Compiling the translators' catalogues for the package. Runs where Babel is: in a build, or in `.venv`."""

from __future__ import annotations

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from .house import COMPILED, ROOT


def compile_catalogues() -> None:
    """Write `server/pengan/words/compiled/<language>.mo` for every `translations/<language>/LC_MESSAGES/messages.po`."""
    COMPILED.mkdir(parents=True, exist_ok=True)
    for source in sorted((ROOT / "translations").glob("*/LC_MESSAGES/messages.po")):
        language = source.parts[-3]
        with source.open("rb") as file:
            catalogue = read_po(file, locale=language.replace("-", "_"))
        with (COMPILED / f"{language}.mo").open("wb") as file:
            write_mo(file, catalogue)
