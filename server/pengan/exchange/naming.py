"""Finds what a name in a book means, in any shipped language, and which language it was written in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields
from functools import cache
from types import MappingProxyType

from pengan.engine.document.fields import Kind, kind_of
from pengan.engine.document.record import Record
from pengan.engine.document.tables import TABLES
from pengan.words import languages
from pengan.words.loading import catalogue
from pengan.words.reader import Reader

from .folding import fold
from .vocabulary import SHEETS, choice_names, field_names

Meanings = Mapping[str, Mapping[str, frozenset[str]]]
"""Folded name → what it can mean → the languages that say so."""

BY_NAME: Mapping[str, type[Record]] = MappingProxyType({table.table: table for table in TABLES})


@cache
def kinds(table: str) -> Mapping[str, Kind]:
    """Every field of a table and its kind, in order."""
    return MappingProxyType({item.name: kind_of(item) for item in fields(BY_NAME[table])})


def names_in(listed: str, language: str) -> list[str]:
    """A translatable list of names in one language, as written there."""
    return [name.strip() for name in catalogue(language).gettext(listed).split(",")]


def title(listed: str, reader: Reader) -> str:
    """The first name of a list, for a person to read."""
    return names_in(listed, reader.language)[0]


def titles(lists: Iterable[str], reader: Reader) -> str:
    """Several titles in one line."""
    return ", ".join(title(listed, reader) for listed in lists)


@cache
def sheet_meanings() -> Meanings:
    """What a sheet's name can mean: tables."""
    return _meanings({table: (listed, table) for table, listed in SHEETS.items()})


@cache
def field_meanings(table: str) -> Meanings:
    """What a column's heading, without its unit, can mean: fields of the table."""
    return _meanings({field: (field_names(table, field), field) for field in kinds(table)})


@cache
def choice_meanings(table: str, field: str) -> Meanings:
    """What a cell of a column with fixed choices can mean."""
    choices = kinds(table)[field].choices
    return _meanings({choice: (choice_names(field, choice), choice) for choice in choices})


def _meanings(lists: Mapping[str, tuple[str, str]]) -> Meanings:
    found: dict[str, dict[str, set[str]]] = {}
    for meaning, (listed, code) in lists.items():
        found.setdefault(fold(code), {}).setdefault(meaning, set())
        for language in languages.shipped():
            for name in names_in(listed, language):
                found.setdefault(fold(name), {}).setdefault(meaning, set()).add(language)
    return {name: {meaning: frozenset(said) for meaning, said in each.items()} for name, each in found.items()}


def meaning_of(name: str, meanings: Meanings, language: str) -> list[str]:
    """What a name means, the book's own language first: one meaning, none, or several where it is unclear.

    A language that is not the book's own counts only where the book's own does not know the name.
    """
    found = meanings.get(fold(name), {})
    own = [meaning for meaning, said in found.items() if language.split("-")[0] in {tag.split("-")[0] for tag in said}]
    return own or list(found)
