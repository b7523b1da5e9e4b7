"""What is wrong with a language's catalogue: sentences missing, left over, unsure, or with other placeholders."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from gettext import c2py

from babel.messages.catalog import Catalog, Message

from .sentences import PLACEHOLDER

_CAPITALS = re.compile(r"\b[A-Z]{2,}\b")
_NUMBERS = 200
"""Plural rules look at a number's last two digits at most, so that these show all there is."""


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing for a translator to put right: the English sentence, and what is wrong."""

    sentence: str
    what: str


def flaws(translated: Catalog, template: Catalog) -> list[Flaw]:
    """Everything wrong with a catalogue beside the sentences of the code. Empty when it is complete."""
    sentences = [message for message in template if message.id]
    found = [flaw for message in sentences for flaw in _flaws_of(message, translated)]
    typed = _words_for_what_is_typed(translated)
    found += [flaw for message in sentences for flaw in _left_in_english(message, translated, typed)]
    left = [message for message in translated if message.id and template.get(message.id) is None]
    return [*found, *(Flaw(_english(message), "is no longer in the code: run update") for message in left)]


def _words_for_what_is_typed(translated: Catalog) -> frozenset[str]:
    """As lines of usage have them in English, SITE or FILE; those with a word of the language's own."""
    alone = (message for message in translated if _CAPITALS.fullmatch(_english(message)))
    return frozenset(_english(message) for message in alone if message.string != message.id)


def _left_in_english(wanted: Message, translated: Catalog, typed: frozenset[str]) -> Iterator[Flaw]:
    """Help speaks of what is typed by the word that the line of usage above it has."""
    message = translated.get(wanted.id)
    written = {word for text in _texts(message.string if message else None) for word in _CAPITALS.findall(text)}
    for word in sorted(typed & written & set(_CAPITALS.findall(_english(wanted)))):
        yield Flaw(_english(wanted), f"leaves {word} in English")


def _flaws_of(wanted: Message, translated: Catalog) -> Iterator[Flaw]:
    message = translated.get(wanted.id)
    if message is None:
        yield Flaw(_english(wanted), "is missing: run update")
        return
    forms = _texts(message.string)
    if message.fuzzy:
        yield Flaw(_english(wanted), "is marked fuzzy")
    if isinstance(wanted.id, tuple) and len(forms) != translated.num_plurals:
        yield Flaw(_english(wanted), f"has {len(forms)} plural forms, {translated.num_plurals} needed")
    if isinstance(wanted.id, tuple) != isinstance(message.id, tuple):
        yield Flaw(_english(wanted), "is not plural in both")
    of_one_number = _forms_of_one_number(translated.plural_expr) if len(forms) > 1 else frozenset()
    for place, form in enumerate(forms):
        yield from _flaws_in(form, wanted, may_say_it=place in of_one_number)


def _forms_of_one_number(rule: str) -> frozenset[int]:
    """Plural forms that a single number takes, as Arabic's for two: its word can stand in place of the figure."""
    taken = Counter(c2py(rule)(number) for number in range(_NUMBERS))
    return frozenset(form for form, numbers in taken.items() if numbers == 1)


def _flaws_in(form: str, wanted: Message, *, may_say_it: bool) -> Iterator[Flaw]:
    if not form.strip():
        yield Flaw(_english(wanted), "is not translated")
        return
    given, (needed, allowed) = set(PLACEHOLDER.findall(form)), _placeholders(wanted)
    if may_say_it:
        needed = {name for name in needed if not name.endswith("count")}
    if not needed <= given <= allowed:
        yield Flaw(_english(wanted), f"has the placeholders {sorted(given)} instead of {sorted(allowed)}")
    if form.count("{") != form.count("}"):
        yield Flaw(_english(wanted), "has a brace too many or too few")


def _placeholders(wanted: Message) -> tuple[set[str], set[str]]:
    """Those every form must have, and those it may have: `1 run` and `{count} runs` need not have the same."""
    each = [set(PLACEHOLDER.findall(text)) for text in _texts(wanted.id)]
    return set.intersection(*each), set.union(*each)


def _texts(text: str | tuple[str, ...] | list[str] | None) -> tuple[str, ...]:
    return (text or "",) if text is None or isinstance(text, str) else tuple(text)


def _english(message: Message) -> str:
    return _texts(message.id)[0]
