"""Compiles translations: `.mo` for Python, one small JSON a language for the page. Needs only Babel and this tree.

The page's file is `{"language", "name", "direction", "plural", "messages": {English: text or forms},
"sayings": {code: {"template", "many", "count"}}}`. `plural` is a string of digits, the form for n being
`plural[n < 200 ? n : 100 + n % 100]`, so the page needs no rule to run: gettext's rules look at small numbers
and the last two digits. Beside it stands `.first.json`, the same with the sentences of the first screen alone.
`units.json` carries the units' factors and patterns, so that both sides share one table;
`spellings.json`, beside the folder, how units and lengths of time are typed in every language.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from gettext import GNUTranslations, c2py
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from ..engine.document.description import description
from . import languages
from .durations import spelled_sizes
from .loading import catalogue
from .quantities import spelled_units
from .sentences import declared_sayings, first_files, page_files, template_catalogue
from .units import QUANTITIES, Quantity, Unit

PAGE_FOLDER = languages.ROOT / "pwa" / "generated" / "catalogues"
FIELDS_FILE = languages.ROOT / "pwa" / "generated" / "document" / "fields.json"
_PLURAL_NUMBERS = 200
_OF_ENGLISH = "nplurals=2; plural=n != 1;"


def compile_all() -> list[Path]:
    """Writes everything anew and says which files; the page's files only where the page's source is."""
    written = compile_python()
    if (languages.ROOT / "pwa").is_dir():
        written += [*compile_page(PAGE_FOLDER), write_fields(FIELDS_FILE)]
        written.append(_write_json(PAGE_FOLDER.parent / "spellings.json", spellings_table()))
    return written


def write_fields(target: Path) -> Path:
    """The document's fields with their limits, which the page's forms follow, in the order of the tables."""
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(json.dumps(description(), ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    return target


def read_translations(language: str) -> Catalog:
    """The translators' file of a language."""
    with languages.po_file(language).open("rb") as file:
        return read_po(file, locale=language.replace("-", "_"))


def compile_python() -> list[Path]:
    """One `.mo` a language, into the package."""
    languages.COMPILED.mkdir(parents=True, exist_ok=True)
    return [_compile_mo(language) for language in _translated()]


def _translated() -> list[str]:
    return sorted(path.parts[-3] for path in languages.TRANSLATIONS.glob("*/LC_MESSAGES/messages.po"))


def _compile_mo(language: str) -> Path:
    target = languages.COMPILED / f"{language}.mo"
    with target.open("wb") as file:
        write_mo(file, read_translations(language))
    return target


def compile_page(folder: Path) -> list[Path]:
    """One JSON a language, the made-up ones too, and the units."""
    folder.mkdir(parents=True, exist_ok=True)
    tags = (languages.SOURCE, *_translated(), *languages.PSEUDO)
    pages: dict[str, Any] = {"units": units_table()}
    for files, end in ((page_files, ""), (first_files, ".first")):
        sentences, sayings = template_catalogue(files=files), _sayings(files)
        pages |= {tag + end: _page(tag, sentences, sayings) for tag in tags}
    return [_write_json(folder / f"{name}.json", content) for name, content in pages.items()]


def _write_json(target: Path, content: Mapping[str, Any]) -> Path:
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    target.write_text(text + "\n", encoding="utf-8")
    return target


def _sayings(files: Callable[[Path], Iterator[Path]]) -> dict[str, Any]:
    return {
        saying.code: {"template": saying.template, "many": saying.many, "count": saying.count}
        for saying in declared_sayings(files=files)
    }


def _page(tag: str, sentences: Catalog, sayings: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "language": tag,
        "name": languages.own_name(tag),
        "direction": languages.direction(tag),
        "plural": plural_digits(tag),
        "messages": _messages(tag, sentences),
        "sayings": sayings,
    }


def _messages(tag: str, sentences: Catalog) -> dict[str, str | list[str]]:
    """English is written in the code: only what differs from it travels."""
    if tag == languages.SOURCE:
        return {}
    spoken = catalogue(tag)
    found: dict[str, str | list[str]] = {}
    for message in sentences:
        if isinstance(message.id, str) and message.id:
            found[message.id] = spoken.gettext(message.id)
        elif message.id:
            found[message.id[0]] = _forms(tag, message.id[0], message.id[1])
    return found


def _forms(tag: str, one: str, many: str) -> list[str]:
    """Each plural form, told by a number that takes it."""
    digits = plural_digits(tag)
    return [catalogue(tag).ngettext(one, many, digits.index(str(form))) for form in range(int(max(digits)) + 1)]


@cache
def plural_digits(tag: str) -> str:
    """By the rule at the head of the language's own file; English and what is made up from it have two forms."""
    spoken = catalogue(tag)
    head = spoken.info()["plural-forms"] if isinstance(spoken, GNUTranslations) else _OF_ENGLISH
    return digits_of(c2py(head.partition("plural=")[2].rstrip("; ")))


def digits_of(rule: Callable[[int], int]) -> str:
    """The plural forms of the first numbers, a digit each."""
    return "".join(str(int(rule(number))) for number in range(_PLURAL_NUMBERS))


def units_table() -> dict[str, Any]:
    """The units as the page needs them. Factors are a numerator and a denominator, to divide last."""
    return {key: _quantity(quantity) for key, quantity in QUANTITIES.items()}


def spellings_table() -> dict[str, Any]:
    """What people type for a unit or a length of time, folded, and what it means."""
    return {key: spelled_units(key) for key in QUANTITIES} | {"duration": spelled_sizes()}


def _quantity(quantity: Quantity) -> dict[str, Any]:
    return {
        "units": {key: _unit(unit) for key, unit in quantity.units.items()},
        "sets": {name: [list(step) for step in steps] for name, steps in quantity.sets.items()},
    }


def _unit(unit: Unit) -> dict[str, Any]:
    return {
        "written": unit.written,
        "factor": list(unit.factor.as_integer_ratio()),
        "offset": list(unit.offset.as_integer_ratio()),
        "places": unit.places,
    }
