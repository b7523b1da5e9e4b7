"""Loads catalogues: the compiled file that travels with the package, or the translators' file where that is newer."""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import cache
from gettext import GNUTranslations, NullTranslations
from typing import Protocol

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from . import languages, pseudo


class Catalogue(Protocol):
    """Sentences of one language, by their English text."""

    def gettext(self, message: str) -> str: ...

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str: ...


class _Changed:
    """English, every sentence changed on the fly: a made-up language has no file."""

    def __init__(self, change: Callable[[str], str]) -> None:
        self._change = change

    def gettext(self, message: str) -> str:
        return self._change(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self._change(msgid1 if n == 1 else msgid2)


@cache
def catalogue(tag: str) -> Catalogue:
    """The catalogue that serves a language tag; English, as written in the code, where none does."""
    if tag == languages.ACCENTED:
        return _Changed(pseudo.accented)
    if tag == languages.MIRRORED:
        return _Changed(pseudo.mirrored)
    language = languages.catalogue_tag(tag) or languages.SOURCE
    return NullTranslations() if language == languages.SOURCE else _from_file(language)


def _from_file(language: str) -> Catalogue:
    """In a source tree the .po is read directly when it was touched after the last compile, so work shows at once."""
    compiled, source = languages.COMPILED / f"{language}.mo", languages.po_file(language)
    if source.exists() and not (compiled.exists() and compiled.stat().st_mtime >= source.stat().st_mtime):
        return _from_po(language)
    with compiled.open("rb") as file:
        return GNUTranslations(file)


def _from_po(language: str) -> Catalogue:
    with languages.po_file(language).open("rb") as file:
        parsed = read_po(file, locale=language.replace("-", "_"))
    compiled = io.BytesIO()
    write_mo(compiled, parsed)
    compiled.seek(0)
    return GNUTranslations(compiled)
