"""Tends the catalogues: `python -m pengan.words.catalogue extract|update|compile|check [LANGUAGE …]`.

`extract` writes `translations/messages.pot` for translators' tools, `update` brings every language's file in step
with the code (naming a new language begins it), `compile` makes what runs, `check` lists what is wrong and fails if
anything is. This is a tool for those who work on the code, so it speaks English.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po

from . import languages
from .checking import flaws
from .compiling import compile_all, read_translations
from .sentences import template_catalogue

_FIXED = datetime(2026, 1, 1, tzinfo=UTC)
"""Dates in the files would differ with every run and tell nothing that git does not."""


def main(arguments: Sequence[str]) -> int:
    """Runs one step; the number is the exit status."""
    step = _STEPS.get(arguments[0]) if arguments else None
    if step is None:
        print(__doc__)
        return 2
    return step(list(arguments[1:]))


def extract(_wanted: list[str]) -> int:
    """Writes the template for translators' tools."""
    target = languages.TRANSLATIONS / "messages.pot"
    target.write_bytes(_po_bytes(template_catalogue()))
    print(target)
    return 0


def update(wanted: list[str]) -> int:
    """Brings each language's file in step with the code; nothing is guessed."""
    template = template_catalogue()
    for language in sorted({*wanted, *_known()}):
        print(update_one(language, template))
    return 0


def update_one(language: str, template: Catalog) -> Path:
    """Adds new sentences, drops those no longer said, keeps the translators' words."""
    target = languages.po_file(language)
    target.parent.mkdir(parents=True, exist_ok=True)
    translated = read_translations(language) if target.exists() else Catalog(locale=language.replace("-", "_"))
    translated.update(template, no_fuzzy_matching=True)
    translated.obsolete.clear()
    target.write_bytes(_po_bytes(translated))
    return target


def _po_bytes(catalogue: Catalog) -> bytes:
    catalogue.fuzzy, catalogue.creation_date, catalogue.revision_date = False, _FIXED, _FIXED
    catalogue.project, catalogue.version, catalogue.msgid_bugs_address = "Pengan", "1", ""
    catalogue.last_translator = catalogue.language_team = "Pengan"
    catalogue.header_comment = "# Pengan: the sentences people read, by language."
    written = io.BytesIO()
    write_po(written, catalogue, width=110, sort_by_file=True, include_lineno=False, include_previous=False)
    return written.getvalue()


def compile_(_wanted: list[str]) -> int:
    """Makes the files that run."""
    for path in compile_all():
        print(path)
    return 0


def check(wanted: list[str]) -> int:
    """Lists what is wrong, one line each."""
    template, faulty = template_catalogue(), 0
    for language in wanted or _known():
        for flaw in flaws(read_translations(language), template):
            print(f"{language}: “{flaw.sentence}” {flaw.what}")
            faulty += 1
    return 1 if faulty else 0


def _known() -> list[str]:
    return [language for language in languages.shipped() if languages.po_file(language).exists()]


_STEPS: dict[str, Callable[[list[str]], int]] = {
    "extract": extract, "update": update, "compile": compile_, "check": check,
}  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
