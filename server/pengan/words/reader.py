"""Who reads: their language, units and clock. One `Reader` decides how everything a person sees is written.

Sentences outside the engine are written as `_("… {name}", name=…)`; they are put into the language of
the current reader, which a request or a command sets once with `reading`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from types import MappingProxyType

from babel import Locale

from . import languages
from .decimals import decimal_text
from .loading import Catalogue, catalogue

UNIT_SETS = ("metric", "us", "imperial")
HOUR_CYCLES = ("12", "24")
FIRST_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
DIGITS = ("latn", "arab", "arabext", "deva")
"""Numbering systems of CLDR: 0123, ٠١٢٣, ۰۱۲۳, ०१२३. What the server says stays in the first."""


@dataclass(frozen=True, slots=True)
class Reader:
    """A person's choices. `choices` names a unit for single quantities (`{"flow": "lps"}`), over the set.

    `hour_cycle` is "12", "24" or None: as the language has it.
    """

    language: str = languages.SOURCE
    units: str = "metric"
    choices: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    hour_cycle: str | None = None

    @property
    def locale(self) -> Locale:
        """CLDR data for numbers, dates and lists."""
        return languages.locale_of(self.language)

    @property
    def catalogue(self) -> Catalogue:
        """The sentences in this reader's language."""
        return catalogue(self.language)

    @property
    def direction(self) -> str:
        """`ltr` or `rtl`."""
        return languages.direction(self.language)

    def gettext(self, template: str, **params: object) -> str:
        """A sentence in this reader's language, its placeholders filled; numbers in the reader's digits."""
        return _filled(self.catalogue.gettext(template), params, self)

    def ngettext(self, one: str, many: str, count: int, **params: object) -> str:
        """A sentence that changes with a number, which fills `{count}`."""
        return _filled(self.catalogue.ngettext(one, many, count), {"count": count, **params}, self)


def _filled(template: str, params: Mapping[str, object], reader: Reader) -> str:
    if not params:
        return template
    return template.format_map({name: _shown(value, reader) for name, value in params.items()})


def _shown(value: object, reader: Reader) -> str:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return str(value)
    return decimal_text(value, reader.language)


_DEFAULT = Reader()
_current: ContextVar[Reader] = ContextVar("reader", default=_DEFAULT)


def current_reader() -> Reader:
    """The reader `_` writes for."""
    return _current.get()


@contextmanager
def reading(reader: Reader) -> Iterator[Reader]:
    """Makes `_` and `ngettext` write for this reader until the block ends."""
    token = _current.set(reader)
    try:
        yield reader
    finally:
        _current.reset(token)


def _(template: str, **params: object) -> str:
    """A sentence in the current reader's language: `_("Night of {date}", date=…)`."""
    return current_reader().gettext(template, **params)


def ngettext(one: str, many: str, count: int, **params: object) -> str:
    """A sentence that changes with a number: `ngettext("{count} run", "{count} runs", 3)`."""
    return current_reader().ngettext(one, many, count, **params)


def N_(template: str) -> str:
    """Marks a sentence for translation where it is declared; `_` puts it into a language later."""
    return template


def N_plural(one: str, many: str) -> tuple[str, str]:
    """Marks a sentence with two forms for translation where it is declared."""
    return one, many
