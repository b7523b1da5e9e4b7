"""What is wrong with a language's catalogue: sentences missing, left over, unsure, or with other placeholders."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from babel.messages.catalog import Catalog, Message

from .sentences import PLACEHOLDER


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing for a translator to put right: the English sentence, and what is wrong."""

    sentence: str
    what: str


def flaws(translated: Catalog, template: Catalog) -> list[Flaw]:
    """Everything wrong with a catalogue beside the sentences of the code. Empty when it is complete."""
    found = [flaw for message in template if message.id for flaw in _flaws_of(message, translated)]
    left = [message for message in translated if message.id and template.get(message.id) is None]
    return [*found, *(Flaw(_english(message), "is no longer in the code: run update") for message in left)]


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
    for form in forms:
        yield from _flaws_in(form, wanted)


def _flaws_in(form: str, wanted: Message) -> Iterator[Flaw]:
    if not form.strip():
        yield Flaw(_english(wanted), "is not translated")
        return
    given, (needed, allowed) = set(PLACEHOLDER.findall(form)), _placeholders(wanted)
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
